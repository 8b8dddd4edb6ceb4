package release

import (
	"encoding/base64"
	"errors"
	"fmt"
	"slices"
	"strings"

	"aead.dev/minisign"
)

// Verify says whether the release is as it was made: every file that the
// manifest lists is there with its SHA-256, no other is, and the signature, where
// there is one, holds. Trusted is the public key of whoever is trusted, as minisign
// writes it: the file or its last line. With it a release that this key has not
// signed is an error; of several keys one must have signed it. A key that is given
// and is none is an error, an empty one too. Only where no key is given at all, as
// in r.Verify(), nobody is asked for, and Verify cannot tell who made the release.
//
// That a release verifies does not make a draft one to work by, see
// [Release.Draft]. The error tells all that is wrong.
func (r *Release) Verify(trusted ...string) error {
	var wrong []error
	listed := map[string]bool{ManifestFile: true, SignatureFile: true}
	for _, f := range r.Manifest.Files {
		listed[f.Path] = true
		if err := r.compare(f); err != nil {
			wrong = append(wrong, err)
		}
	}
	for _, name := range r.names {
		if !listed[name] {
			wrong = append(wrong, fmt.Errorf("%s: is no part of the release", name))
		}
	}
	if err := r.verifySignature(trusted); err != nil {
		wrong = append(wrong, err)
	}
	return errors.Join(wrong...)
}

func (r *Release) verifySignature(trusted []string) error {
	for _, key := range trusted {
		if _, err := ParseKey(key); err != nil {
			return fmt.Errorf("the key given: %w", err)
		}
	}
	signed := slices.Contains(r.names, SignatureFile)
	_, has := r.Manifest.File(KeyFile)
	switch {
	case !signed && !has && len(trusted) == 0:
		return nil
	case !signed && !has:
		return errors.New("is not signed")
	case !signed:
		return fmt.Errorf("%s: is missing, though the manifest lists %s", SignatureFile, KeyFile)
	case !has:
		return fmt.Errorf("%s: is there, though the manifest lists no %s", SignatureFile, KeyFile)
	}
	signature, err := r.read(SignatureFile, 64<<10)
	if err != nil {
		return err
	}
	own, err := r.ReadFile(KeyFile)
	if err != nil {
		return err
	}
	if len(trusted) == 0 {
		trusted = []string{string(own)}
	}
	for _, key := range trusted {
		if err = VerifyManifest(r.manifest, signature, key); err == nil {
			return nil
		}
	}
	return err
}

// VerifyManifest verifies the signature of a manifest by a public key, as
// minisign writes it.
func VerifyManifest(manifest, signature []byte, key string) error {
	public, err := ParseKey(key)
	if err != nil {
		return err
	}
	var s minisign.Signature
	if err := s.UnmarshalText(signature); err != nil {
		return fmt.Errorf("%s: is no signature of minisign", SignatureFile)
	}
	switch {
	case s.KeyID != public.ID():
		return fmt.Errorf("%s: is by the key %016X, not by %016X", SignatureFile, s.KeyID, public.ID())
	case s.Algorithm != minisign.HashEdDSA:
		return fmt.Errorf("%s: is not of the prehashed form", SignatureFile)
	case !minisign.Verify(public, manifest, signature):
		return fmt.Errorf("%s: does not hold: the manifest, the signature or the key was changed", SignatureFile)
	}
	return nil
}

// ParseKey reads a public key as minisign writes it: the file, or its last line.
func ParseKey(text string) (minisign.PublicKey, error) {
	bad := errors.New("is no public key of minisign, such as a line that begins with RW")
	line := ""
	for l := range strings.Lines(text) {
		if l = strings.TrimSpace(l); l != "" {
			line = l
		}
	}
	if _, err := base64.StdEncoding.Strict().DecodeString(line); err != nil {
		return minisign.PublicKey{}, bad
	}
	var key minisign.PublicKey
	if err := key.UnmarshalText([]byte(line)); err != nil {
		return minisign.PublicKey{}, bad
	}
	return key, nil
}

package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"aead.dev/minisign"

	"snapgauge/specs/release"
)

// keyPassword is the variable that the password of a secret key may stand in.
const keyPassword = "SNAPGAUGE_KEY_PASSWORD"

// mostKey is the size of a file that a key may stand in.
const mostKey = 64 << 10

func readKeyFile(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("--key: %w", err)
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostKey))
	if err != nil {
		return nil, fmt.Errorf("--key: %w", err)
	}
	return text, nil
}

// secretKey reads a secret key of minisign. The password of one that has one is
// taken from the environment, or asked for on the terminal.
func secretKey(name string, s streams) (minisign.PrivateKey, error) {
	var key minisign.PrivateKey
	text, err := readKeyFile(name)
	if err != nil {
		return key, err
	}
	if _, err := release.ParseKey(string(text)); err == nil {
		return key, fmt.Errorf("--key: %s is a public key; a release is signed with the secret one", name)
	}
	if !minisign.IsEncrypted(text) {
		if err := key.UnmarshalText(text); err != nil {
			return key, fmt.Errorf("--key: %s is no secret key of minisign", name)
		}
		return key, nil
	}
	password, given := os.LookupEnv(keyPassword)
	if !given {
		if password, err = askPassword(s, "password of "+name+": "); err != nil {
			return key, fmt.Errorf("--key: %s has a password; set %s: %w", name, keyPassword, err)
		}
	}
	if key, err = minisign.DecryptKey(password, text); err != nil {
		return key, fmt.Errorf("--key: %s: the password does not fit, or the file is damaged", name)
	}
	return key, nil
}

var errNoTerminal = errors.New("there is no terminal to ask for it")

// publicText is the file of a public key, as minisign writes it.
func publicText(key minisign.PublicKey) string {
	return fmt.Sprintf("untrusted comment: minisign public key %016X\n%s\n", key.ID(), key.String())
}

// sign signs a manifest, in the prehashed form. Neither comment bears a time, so
// that the same release is the same bytes.
func sign(key minisign.PrivateKey, manifest []byte, state, edition string) ([]byte, error) {
	r := minisign.NewReader(bytes.NewReader(manifest))
	if _, err := io.Copy(io.Discard, r); err != nil {
		return nil, err
	}
	trusted, untrusted := comments(key.ID(), state, edition)
	return r.SignWithComments(key, trusted, untrusted), nil
}

// comments are those of a signature.
func comments(id uint64, state, edition string) (trusted, untrusted string) {
	trusted = "snapgauge release"
	if state != release.StateRelease {
		trusted = "DRAFT of a snapgauge release, not vetted"
	}
	if edition != "" {
		trusted += ", edition " + strings.ToValidUTF8(edition, "\ufffd")
	}
	return trusted, fmt.Sprintf("signature of %s by the key %016X", release.ManifestFile, id)
}

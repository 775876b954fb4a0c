"""A person's signing key, read from a PKCS#12 file or from PEM files; it stays in memory only."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from asn1crypto import keys as asn1_keys
from asn1crypto import x509 as asn1_x509
from cryptography import x509
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    PublicFormat,
    load_pem_private_key,
    pkcs12,
)
from pyhanko.sign.signers import SimpleSigner
from pyhanko_certvalidator.registry import SimpleCertificateStore


class KeyUnusable(Exception):  # noqa: N818 - it reads as the sentence it is
    """The key cannot be used; the message says why."""


class PassphraseNeeded(KeyUnusable):
    """The key is protected by a passphrase and none was given."""


@dataclass(frozen=True, slots=True)
class SigningKey:
    """A private key with its certificate.

    Attributes:
        private: the key.
        certificate: the certificate that names its holder.
        chain: certificates that lead from it towards a root.
    """

    private: Any
    certificate: x509.Certificate
    chain: tuple[x509.Certificate, ...]

    @property
    def holder(self) -> str:
        """Whom the certificate names."""
        return subject(self.certificate)

    @property
    def fingerprint(self) -> str:
        """SHA-256 of the certificate, in hexadecimal."""
        return self.certificate.fingerprint(SHA256()).hex()

    def signer(self) -> SimpleSigner:
        """Give the key as the signing library takes it."""
        private = self.private.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())
        known = SimpleCertificateStore()  # type: ignore[no-untyped-call]
        known.register_multiple(_plain(one) for one in self.chain)
        return SimpleSigner(_plain(self.certificate), asn1_keys.PrivateKeyInfo.load(private), known)


def subject(certificate: x509.Certificate) -> str:
    """Give whom a certificate names: the common name, or the whole subject if there is none."""
    common = certificate.subject.get_attributes_for_oid(x509.NameOID.COMMON_NAME)
    return str(common[0].value) if common else certificate.subject.rfc4514_string()


def read_certificates(file: Path) -> tuple[x509.Certificate, ...]:
    """Read certificates from a PEM file.

    Raises:
        KeyUnusable: it holds none.
    """
    try:
        return tuple(x509.load_pem_x509_certificates(file.read_bytes()))
    except ValueError as error:
        raise KeyUnusable(f"{file} holds no certificate in PEM form.") from error


def read_key(file: Path, certificate: Path | None = None, passphrase: bytes | None = None) -> SigningKey:
    """Read a signing key.

    Args:
        file: a PKCS#12 file (.p12, .pfx), or a private key in PEM form.
        certificate: the certificate to a PEM key, if it does not stand in the same file.
        passphrase: what protects the key, if anything does.

    Raises:
        PassphraseNeeded: it is protected and no passphrase was given.
        KeyUnusable: it is no key, the passphrase is wrong, or the certificate is not that of the key.
    """
    data = file.read_bytes()
    key = (
        _from_pem(file, data, certificate or file, passphrase)
        if b"-----BEGIN" in data
        else _from_pkcs12(file, data, passphrase)
    )
    if _public(key.certificate) != _public(key.private):
        raise KeyUnusable(f"{certificate or file}: the certificate belongs to another key.")
    return key


def _from_pkcs12(file: Path, data: bytes, passphrase: bytes | None) -> SigningKey:
    try:
        private, certificate, chain = pkcs12.load_key_and_certificates(data, passphrase)
    except ValueError as error:
        if passphrase is None and data[:1] == b"\x30":  # an ASN.1 sequence, as every PKCS#12 file is
            raise PassphraseNeeded(f"{file} is protected by a passphrase.") from error
        raise KeyUnusable(f"{file}: the passphrase is wrong, or this is no PKCS#12 file.") from error
    if private is None or certificate is None:
        raise KeyUnusable(f"{file} holds no private key with its certificate.")
    return SigningKey(private, certificate, tuple(chain))


def _from_pem(file: Path, data: bytes, certificate: Path, passphrase: bytes | None) -> SigningKey:
    try:
        private = load_pem_private_key(data, passphrase)
    except TypeError as error:
        if passphrase is None:
            raise PassphraseNeeded(f"{file} is protected by a passphrase.") from error
        return _from_pem(file, data, certificate, None)  # a passphrase for a key that needs none
    except ValueError as error:
        raise KeyUnusable(f"{file}: the passphrase is wrong, or this is no private key.") from error
    try:
        first, *chain = read_certificates(certificate)
    except KeyUnusable as error:
        raise KeyUnusable(f"{certificate} holds no certificate; name the key's certificate too.") from error
    return SigningKey(private, first, tuple(chain))


def _public(holder: Any) -> bytes:
    public: bytes = holder.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    return public


def _plain(certificate: x509.Certificate) -> asn1_x509.Certificate:
    return asn1_x509.Certificate.load(certificate.public_bytes(Encoding.DER))

"""People with keys that are made when a test runs and never kept."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from typing import Any

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import (
    BestAvailableEncryption,
    Encoding,
    KeySerializationEncryption,
    NoEncryption,
    PrivateFormat,
    pkcs12,
)

from revealbook.archive.keys import SigningKey

PASSPHRASE = b"three words at random"


@dataclass(frozen=True)
class Person:
    """Somebody with a key and a certificate."""

    key: Any
    certificate: x509.Certificate
    chain: tuple[x509.Certificate, ...] = ()

    @property
    def signing_key(self) -> SigningKey:
        return SigningKey(self.key, self.certificate, self.chain)

    @property
    def pem(self) -> bytes:
        return self.certificate.public_bytes(Encoding.PEM)

    def key_pem(self, passphrase: bytes | None = None) -> bytes:
        pem: bytes = self.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, _locked(passphrase))
        return pem

    def p12(self, folder: Path, passphrase: bytes | None = PASSPHRASE) -> Path:
        file = folder / "key.p12"
        chain = list(self.chain) or None
        file.write_bytes(
            pkcs12.serialize_key_and_certificates(
                b"key", self.key, self.certificate, chain, _locked(passphrase)
            )
        )
        return file


def _locked(passphrase: bytes | None) -> KeySerializationEncryption:
    return NoEncryption() if passphrase is None else BestAvailableEncryption(passphrase)


def somebody(
    name: str,
    *,
    issuer: Person | None = None,
    key: Any = None,
    first_day: int = -1,
    last_day: int = 900,
    may_issue: bool = False,
) -> Person:
    """Make a key and its certificate, self-made or issued, valid from and to a number of days from now."""
    key = key or ec.generate_private_key(ec.SECP256R1())
    subject = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, name)])
    now = datetime.now(UTC)
    usage = [True, True, False, False, False, may_issue, may_issue, False, False]
    certificate = (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer.certificate.subject if issuer else subject)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now + timedelta(days=first_day))
        .not_valid_after(now + timedelta(days=last_day))
        .add_extension(x509.BasicConstraints(ca=may_issue, path_length=None), critical=True)
        .add_extension(x509.KeyUsage(*usage), critical=True)
        .sign(issuer.key if issuer else key, SHA256())
    )
    return Person(key, certificate, (issuer.certificate,) if issuer else ())


@cache
def ada() -> Person:
    """Give the installer, with a self-made certificate."""
    return somebody("Ada Laibung")


@cache
def cleo() -> Person:
    """Give the clerk of works, with a self-made certificate."""
    return somebody("Cleo Reveal")

"""The workshop's own certificates, for other machines on its network: an authority made once, which
a phone may trust, and a certificate of today's addresses signed by it.

Nothing of it leaves this machine but the authority's certificate, which tells no secret.
"""

import os
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address
from pathlib import Path
from typing import Final

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

TLS_NAME: Final = "tls"
"""The folder of all this below the workshop's."""
DAYS_OF_AUTHORITY: Final = 3650
DAYS_OF_SERVER: Final = 397
"""Phones take no certificate of a server that lasts longer."""
DAYS_LEFT: Final = 30


@dataclass(frozen=True, slots=True)
class Certificate:
    """Files of a certificate and its key in PEM, the authority's certificate, and the SHA-256 of
    the server's certificate in pairs of hexadecimal digits, as browsers show it."""

    certificate: Path
    key: Path
    authority: Path
    fingerprint: str


def certificate_for(folder: Path, hosts: tuple[str, ...], at: datetime) -> Certificate:
    """The certificate of a server that is called by these names and addresses; the one that is
    there, where it still fits."""
    folder.mkdir(parents=True, exist_ok=True)
    authority, signing = _authority(folder, at)
    certificate, key = folder / "server.pem", folder / "server-key.pem"
    if not _fits(certificate, hosts, at):
        own = ec.generate_private_key(ec.SECP256R1())
        made = _server(own.public_key(), hosts, authority, at).sign(signing, hashes.SHA256())
        _write(key, _key_text(own))
        _write(certificate, made.public_bytes(Encoding.PEM) + authority.public_bytes(Encoding.PEM))
    found = x509.load_pem_x509_certificate(certificate.read_bytes())
    return Certificate(certificate, key, folder / "authority.pem", fingerprint_of(found))


def authority_there(home: Path) -> bytes | None:
    """The authority's certificate in DER, as phones take it; None where none was made yet."""
    file = home / TLS_NAME / "authority.pem"
    if not file.is_file():
        return None
    return x509.load_pem_x509_certificate(file.read_bytes()).public_bytes(Encoding.DER)


def fingerprint_there(home: Path) -> str:
    """The fingerprint of the certificate that is served with; empty where there is none."""
    file = home / TLS_NAME / "server.pem"
    if not file.is_file():
        return ""
    return fingerprint_of(x509.load_pem_x509_certificate(file.read_bytes()))


def fingerprint_of(certificate: x509.Certificate) -> str:
    """The SHA-256 of a certificate, in pairs of digits."""
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def _authority(folder: Path, at: datetime) -> tuple[x509.Certificate, ec.EllipticCurvePrivateKey]:
    """The authority's certificate and key, made where there is none."""
    certificate, key = folder / "authority.pem", folder / "authority-key.pem"
    if certificate.is_file() and key.is_file():
        found = load_pem_private_key(key.read_bytes(), None)
        assert isinstance(found, ec.EllipticCurvePrivateKey), "no other kind is ever made"
        return x509.load_pem_x509_certificate(certificate.read_bytes()), found
    own = ec.generate_private_key(ec.SECP256R1())
    name = _name("Witnessmark workshop authority")
    made = (
        _begun(name, name, own.public_key(), at, DAYS_OF_AUTHORITY)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .sign(own, hashes.SHA256())
    )
    _write(key, _key_text(own))
    _write(certificate, made.public_bytes(Encoding.PEM))
    return made, own


def _server(
    key: ec.EllipticCurvePublicKey,
    hosts: tuple[str, ...],
    authority: x509.Certificate,
    at: datetime,
) -> x509.CertificateBuilder:
    name = _name("Witnessmark workshop")
    return (
        _begun(name, authority.subject, key, at, DAYS_OF_SERVER)
        .add_extension(x509.SubjectAlternativeName(list(map(_host, hosts))), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
    )


def _begun(
    subject: x509.Name, issuer: x509.Name, key: ec.EllipticCurvePublicKey, at: datetime, days: int
) -> x509.CertificateBuilder:
    begin = at.astimezone(UTC) - timedelta(days=1)  # the clock of a phone may be behind
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(begin)
        .not_valid_after(begin + timedelta(days=days))
    )


def _fits(certificate: Path, hosts: tuple[str, ...], at: datetime) -> bool:
    if not certificate.is_file():
        return False
    found = x509.load_pem_x509_certificate(certificate.read_bytes())
    names = found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    is_long = found.not_valid_after_utc - at.astimezone(UTC) > timedelta(days=DAYS_LEFT)
    return is_long and set(map(_host, hosts)) <= set(names)


def _host(name: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def _name(text: str) -> x509.Name:
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text)])


def _usage(signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _key_text(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())


def _write(path: Path, content: bytes) -> None:
    """Put a file in its place whole, readable by its owner alone."""
    beside = path.with_name(f".{path.name}.new")
    beside.unlink(missing_ok=True)
    with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as stream:
        stream.write(content)
    beside.replace(path)

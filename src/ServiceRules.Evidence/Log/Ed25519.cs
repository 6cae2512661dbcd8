using Org.BouncyCastle.Asn1;
using Org.BouncyCastle.Asn1.EdEC;
using Org.BouncyCastle.Asn1.Pkcs;
using Org.BouncyCastle.Asn1.X509;
using Org.BouncyCastle.Crypto.Parameters;
using Org.BouncyCastle.Crypto.Signers;
using Org.BouncyCastle.Security;
using Org.BouncyCastle.X509;
using Curve = Org.BouncyCastle.Math.EC.Rfc8032.Ed25519;

namespace ServiceRules.Evidence.Log;

/// <summary>Ed25519 of RFC 8032, which the base class library does not have.</summary>
internal static class Ed25519
{
    public const int PublicKeyBytes = 32;
    public const int SignatureBytes = 64;
    public const int SeedBytes = 32;

    /// <summary>Whether the bytes are a point of the right order: with others anyone could sign.</summary>
    public static bool IsPublicKey(byte[] key) =>
        key.Length == PublicKeyBytes && Curve.ValidatePublicKeyFull(key, 0);

    public static bool Verifies(byte[] key, byte[] message, byte[] signature)
    {
        if (signature.Length != SignatureBytes)
        {
            return false;
        }

        var signer = new Ed25519Signer();
        signer.Init(forSigning: false, new Ed25519PublicKeyParameters(key));
        signer.BlockUpdate(message, 0, message.Length);
        return signer.VerifySignature(signature);
    }

    public static byte[] Sign(byte[] seed, byte[] message)
    {
        var signer = new Ed25519Signer();
        signer.Init(forSigning: true, new Ed25519PrivateKeyParameters(seed));
        signer.BlockUpdate(message, 0, message.Length);
        return signer.GenerateSignature();
    }

    public static byte[] PublicKeyOf(byte[] seed) =>
        new Ed25519PrivateKeyParameters(seed).GeneratePublicKey().GetEncoded();

    /// <summary>SubjectPublicKeyInfo of RFC 8410 in DER.</summary>
    public static byte[] ToSpki(byte[] key) =>
        SubjectPublicKeyInfoFactory
            .CreateSubjectPublicKeyInfo(new Ed25519PublicKeyParameters(key))
            .GetDerEncoded();

    /// <summary>PKCS#8 of RFC 8410 in DER, as OpenSSL writes it.</summary>
    public static byte[] ToPkcs8(byte[] seed) =>
        // Version 1, the seed alone: OpenSSL 3.0 does not read the version with the public key beside it.
        new PrivateKeyInfo(
            new AlgorithmIdentifier(EdECObjectIdentifiers.id_Ed25519),
            new DerOctetString(seed)
        ).GetDerEncoded();

    /// <summary>The seed in a PKCS#8 key, or null where it holds no Ed25519 key.</summary>
    public static byte[]? SeedOf(byte[] pkcs8)
    {
        try
        {
            return (PrivateKeyFactory.CreateKey(pkcs8) as Ed25519PrivateKeyParameters)?.GetEncoded();
        }
#pragma warning disable CA1031 // The library promises no set of exceptions for bytes that are no key.
        catch (Exception)
#pragma warning restore CA1031
        {
            return null;
        }
    }
}

using System.Buffers;
using System.Formats.Asn1;
using System.Security.Cryptography;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Verifying;

/// <summary>
/// A CMS SignedData (RFC 5652) read in the one form that a baseline report signature can have: B-B, or B-T with one
/// time-stamp. Every byte of it is either pinned here, covered by the signature, covered by the certificate hash that
/// the signature covers, or part of the time-stamp, which is looked at on its own.
/// </summary>
internal sealed record SignatureContainer(
    IReadOnlyList<byte[]> Certificates,
    byte[] Issuer,
    byte[] Serial,
    byte[] MessageDigest,
    byte[] SigningCertificate,
    byte[] SignedAttributes,
    byte[] Signature,
    byte[]? TimestampToken
)
{
    private static readonly Asn1Tag Tag0 = new(TagClass.ContextSpecific, 0, isConstructed: true);

    private static readonly Asn1Tag Tag1 = new(TagClass.ContextSpecific, 1, isConstructed: true);

    private static readonly SearchValues<byte> HexDigits = SearchValues.Create("0123456789ABCDEF"u8);

    private static readonly string[] BaselineAttributes =
    [
        PadesOids.ContentType,
        PadesOids.MessageDigest,
        PadesOids.SigningCertificateV2,
    ];

    /// <summary>The container, or the first thing in it that is not as it must be.</summary>
    public static (SignatureContainer? Container, string? Fault) Read(ReadOnlySpan<byte> hex)
    {
        if (hex.Length % 2 != 0 || hex.ContainsAnyExcept(HexDigits))
        {
            return (null, "the signature's digits are not pairs of 0 to 9 and A to F");
        }
        if (hex.Length / 2 > VerificationLimits.ContainerBytesMax)
        {
            return (
                null,
                $"the place of the signature is larger than {VerificationLimits.ContainerBytesMax} bytes"
            );
        }
        var padded = Convert.FromHexString(hex);
        try
        {
            AsnDecoder.ReadEncodedValue(padded, AsnEncodingRules.DER, out _, out _, out var length);
            if (padded.AsSpan(length).ContainsAnyExcept((byte)0))
            {
                return (null, "something else than zeros follows the signature in its place");
            }
            return ReadContentInfo(padded[..length]);
        }
        catch (AsnContentException)
        {
            return (null, "the signature is not a well-formed container in its one canonical form");
        }
    }

    /// <summary>Whether the signed attributes were signed with the key of this certificate.</summary>
    public bool IsSignedBy(ECDsa key) =>
        key.VerifyData(
            SignedAttributes,
            Signature,
            HashAlgorithmName.SHA256,
            DSASignatureFormat.Rfc3279DerSequence
        );

    private static (SignatureContainer?, string?) ReadContentInfo(byte[] encoded)
    {
        var outer = new AsnReader(encoded, AsnEncodingRules.DER);
        var contentInfo = outer.ReadSequence();
        outer.ThrowIfNotEmpty();
        Require(contentInfo.ReadObjectIdentifier() == PadesOids.SignedData);
        var wrapper = contentInfo.ReadSequence(Tag0);
        contentInfo.ThrowIfNotEmpty();
        var signed = wrapper.ReadSequence();
        wrapper.ThrowIfNotEmpty();

        Require(signed.ReadInteger() == 1);
        var digests = signed.ReadSetOf();
        RequireAlgorithm(digests.ReadSequence(), PadesOids.Sha256);
        digests.ThrowIfNotEmpty();
        var content = signed.ReadSequence();
        Require(content.ReadObjectIdentifier() == PadesOids.Data);
        content.ThrowIfNotEmpty();
        var certificates = ReadAll(signed.ReadSetOf(Tag0));
        var signers = signed.ReadSetOf();
        signed.ThrowIfNotEmpty();
        var signer = signers.ReadSequence();
        if (signers.HasData)
        {
            return (null, "the container has more than one signer");
        }
        return ReadSigner(certificates, signer);
    }

    private static (SignatureContainer?, string?) ReadSigner(
        IReadOnlyList<byte[]> certificates,
        AsnReader signer
    )
    {
        Require(signer.ReadInteger() == 1);
        var identifier = signer.ReadSequence();
        var issuer = identifier.ReadEncodedValue().ToArray();
        var serial = identifier.ReadIntegerBytes().ToArray();
        identifier.ThrowIfNotEmpty();
        RequireAlgorithm(signer.ReadSequence(), PadesOids.Sha256);
        var signedAttributes = signer.PeekEncodedValue().ToArray();
        // RFC 5652, 5.4: what is signed is the same set under the tag SET OF.
        signedAttributes[0] = 0x31;
        var attributes = ReadAttributes(signer.ReadSetOf(Tag0));
        RequireAlgorithm(signer.ReadSequence(), PadesOids.EcdsaWithSha256);
        var signature = signer.ReadOctetString();
        RequirePair(signature);
        var timestamp = signer.HasData ? ReadTimestamp(signer.ReadSetOf(Tag1)) : null;
        signer.ThrowIfNotEmpty();

        if (
            !attributes
                .Keys.Order(StringComparer.Ordinal)
                .SequenceEqual(BaselineAttributes.Order(StringComparer.Ordinal))
        )
        {
            return (null, "the signed attributes are not exactly the three of a baseline signature");
        }
        var type = new AsnReader(attributes[PadesOids.ContentType], AsnEncodingRules.DER);
        Require(type.ReadObjectIdentifier() == PadesOids.Data);
        type.ThrowIfNotEmpty();
        var digest = new AsnReader(attributes[PadesOids.MessageDigest], AsnEncodingRules.DER);
        var messageDigest = digest.ReadOctetString();
        digest.ThrowIfNotEmpty();
        var container = new SignatureContainer(
            certificates,
            issuer,
            serial,
            messageDigest,
            attributes[PadesOids.SigningCertificateV2],
            signedAttributes,
            signature,
            timestamp
        );
        return (container, null);
    }

    private static byte[] ReadTimestamp(AsnReader set)
    {
        var attributes = ReadAttributes(set);
        Require(attributes.Count == 1 && attributes.ContainsKey(PadesOids.SignatureTimestamp));
        return attributes[PadesOids.SignatureTimestamp];
    }

    private static Dictionary<string, byte[]> ReadAttributes(AsnReader set)
    {
        var attributes = new Dictionary<string, byte[]>(StringComparer.Ordinal);
        while (set.HasData)
        {
            var attribute = set.ReadSequence();
            var type = attribute.ReadObjectIdentifier();
            var values = attribute.ReadSetOf();
            var value = values.ReadEncodedValue().ToArray();
            values.ThrowIfNotEmpty();
            attribute.ThrowIfNotEmpty();
            Require(attributes.TryAdd(type, value));
        }
        return attributes;
    }

    private static List<byte[]> ReadAll(AsnReader set)
    {
        var all = new List<byte[]>();
        while (set.HasData)
        {
            all.Add(set.ReadEncodedValue().ToArray());
        }
        return all;
    }

    private static void RequireAlgorithm(AsnReader algorithm, string identifier)
    {
        Require(algorithm.ReadObjectIdentifier() == identifier);
        algorithm.ThrowIfNotEmpty();
    }

    private static void RequirePair(byte[] signature)
    {
        var outer = new AsnReader(signature, AsnEncodingRules.DER);
        var pair = outer.ReadSequence();
        outer.ThrowIfNotEmpty();
        _ = pair.ReadInteger();
        Require(LowSignature.IsLow(pair.ReadInteger()));
        pair.ThrowIfNotEmpty();
    }

    private static void Require(bool condition)
    {
        if (!condition)
        {
            throw new AsnContentException("a field has a value no report signature has");
        }
    }
}

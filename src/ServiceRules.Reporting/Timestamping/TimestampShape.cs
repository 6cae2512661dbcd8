using System.Formats.Asn1;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Timestamping;

/// <summary>
/// The one shape a token may have (RFC 3161, RFC 5652). What the authority signed is left to its signature; what it
/// did not sign is pinned here, so that no byte of a report can be another and mean the same.
/// </summary>
internal static class TimestampShape
{
    private static readonly Asn1Tag Tag0 = new(TagClass.ContextSpecific, 0, isConstructed: true);

    private static readonly Asn1Tag KeyIdentifier = new(TagClass.ContextSpecific, 0);

    private static readonly string[] Digests =
    [
        PadesOids.Sha256,
        "2.16.840.1.101.3.4.2.2",
        "2.16.840.1.101.3.4.2.3",
    ];

    private const string ProbabilisticRsa = "1.2.840.113549.1.1.10";

    public static string? Fault(byte[] encoded)
    {
        try
        {
            Read(encoded);
            return null;
        }
        catch (AsnContentException)
        {
            return "the time-stamp is not in the one form that is accepted";
        }
    }

    private static void Read(byte[] encoded)
    {
        var outer = new AsnReader(encoded, AsnEncodingRules.DER);
        var contentInfo = outer.ReadSequence();
        outer.ThrowIfNotEmpty();
        Require(contentInfo.ReadObjectIdentifier() == PadesOids.SignedData);
        var wrapper = contentInfo.ReadSequence(Tag0);
        contentInfo.ThrowIfNotEmpty();
        var signed = wrapper.ReadSequence();
        wrapper.ThrowIfNotEmpty();

        Require(signed.ReadInteger() == 3);
        var digests = signed.ReadSetOf();
        var digest = ReadDigest(digests.ReadSequence());
        digests.ThrowIfNotEmpty();
        var content = signed.ReadSequence();
        Require(content.ReadObjectIdentifier() == PadesOids.TimestampContent);
        var inside = content.ReadSequence(Tag0);
        content.ThrowIfNotEmpty();
        _ = inside.ReadOctetString();
        inside.ThrowIfNotEmpty();
        // Authorities list them in the order of the chain, which DER would not.
        _ = signed.ReadSetOf(skipSortOrderValidation: true, Tag0);
        var signers = signed.ReadSetOf();
        signed.ThrowIfNotEmpty();
        ReadSigner(signers.ReadSequence(), digest);
        signers.ThrowIfNotEmpty();
    }

    private static void ReadSigner(AsnReader signer, string digest)
    {
        var version = signer.ReadInteger();
        if (signer.PeekTag().HasSameClassAndValue(KeyIdentifier))
        {
            Require(version == 3);
            _ = signer.ReadOctetString(KeyIdentifier);
        }
        else
        {
            Require(version == 1);
            _ = signer.ReadSequence();
        }
        Require(ReadDigest(signer.ReadSequence()) == digest);
        RequireContentType(signer.ReadSetOf(Tag0));
        var algorithm = signer.ReadSequence();
        if (algorithm.ReadObjectIdentifier() != ProbabilisticRsa)
        {
            ReadNoTerms(algorithm);
        }
        _ = signer.ReadOctetString();
        signer.ThrowIfNotEmpty();
    }

    private static void RequireContentType(AsnReader attributes)
    {
        var found = 0;
        while (attributes.HasData)
        {
            var attribute = attributes.ReadSequence();
            if (attribute.ReadObjectIdentifier() == PadesOids.ContentType)
            {
                var values = attribute.ReadSetOf();
                Require(values.ReadObjectIdentifier() == PadesOids.TimestampContent);
                values.ThrowIfNotEmpty();
                found++;
            }
        }
        Require(found == 1);
    }

    private static string ReadDigest(AsnReader algorithm)
    {
        var identifier = algorithm.ReadObjectIdentifier();
        Require(Digests.Contains(identifier));
        ReadNoTerms(algorithm);
        return identifier;
    }

    /// <summary>Left out or NULL: both are written.</summary>
    private static void ReadNoTerms(AsnReader algorithm)
    {
        if (algorithm.HasData)
        {
            algorithm.ReadNull();
        }
        algorithm.ThrowIfNotEmpty();
    }

    private static void Require(bool condition)
    {
        if (!condition)
        {
            throw new AsnContentException("a field has a value that no time-stamp of a report has");
        }
    }
}

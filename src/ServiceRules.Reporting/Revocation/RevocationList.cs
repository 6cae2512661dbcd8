using System.Collections.Immutable;
using System.Formats.Asn1;
using System.Numerics;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Revocation;

/// <summary>
/// An X.509 revocation list (RFC 5280, section 5) of one issuer over all of its certificates. Lists of a part, changes
/// to another list, and lists on behalf of others are refused: they mean something else than they seem to.
/// </summary>
/// <param name="Issuer">Who revokes: the issuer that the certificates on it name.</param>
/// <param name="Number">Counts up from list to list, or null.</param>
/// <param name="Encoded">The list as it was signed.</param>
public sealed record RevocationList(
    X500DistinguishedName Issuer,
    DateTimeOffset ThisUpdate,
    DateTimeOffset? NextUpdate,
    BigInteger? Number,
    ImmutableArray<RevokedCertificate> Entries,
    ReadOnlyMemory<byte> Encoded
)
{
    /// <summary>Some 100,000 entries.</summary>
    public const int BytesMax = 4 * 1024 * 1024;

    private const string PemLabel = "X509 CRL";
    private const string CrlNumber = "2.5.29.20";
    private const string ReasonCode = "2.5.29.21";
    private const string InvalidityDate = "2.5.29.24";

    private static readonly Asn1Tag Tag0 = new(TagClass.ContextSpecific, 0, isConstructed: true);

    /// <summary>The list in a file, PEM or DER, or why it is none.</summary>
    public static (RevocationList? List, string? Fault) Read(byte[] file)
    {
        try
        {
            return (ReadList(Unwrap(file)), null);
        }
        catch (Exception problem)
            when (problem is AsnContentException or CryptographicException or FormatException)
        {
            return (
                null,
                $"no revocation list that can be read ({problem.Message}); accepted: one X.509 list of all certificates of its "
                    + "issuer, in PEM or DER"
            );
        }
    }

    public RevokedCertificate? EntryOf(X509Certificate2 certificate) =>
        Entries.FirstOrDefault(entry => entry.Serial == certificate.SerialNumber);

    /// <summary>Whether it is by whoever issued the certificate, by name.</summary>
    public bool Covers(X509Certificate2 certificate) =>
        Issuer.RawData.AsSpan().SequenceEqual(certificate.IssuerName.RawData);

    /// <summary>Whether the list was signed with the key of this certificate, which must be allowed to sign lists.</summary>
    public bool IsSignedBy(X509Certificate2 signer) =>
        signer.SubjectName.RawData.AsSpan().SequenceEqual(Issuer.RawData)
        && MaySign(signer)
        && SignedObject.IsSignedBy(Encoded, signer);

    internal static bool MaySign(X509Certificate2 signer) =>
        signer
            .Extensions.OfType<X509KeyUsageExtension>()
            .Any(usage => usage.KeyUsages.HasFlag(X509KeyUsageFlags.CrlSign));

    /// <summary>The list for a file, in PEM.</summary>
    public string Pem => PemEncoding.WriteString(PemLabel, Encoded.Span);

    private static byte[] Unwrap(byte[] file)
    {
        var text = Encoding.Latin1.GetString(file);
        if (!PemEncoding.TryFind(text, out var fields))
        {
            return file;
        }
        return text[fields.Label] == PemLabel
            ? Convert.FromBase64String(text[fields.Base64Data])
            : throw new FormatException($"found a block `{text[fields.Label]}`");
    }

    private static RevocationList ReadList(byte[] encoded)
    {
        var outer = new AsnReader(encoded, AsnEncodingRules.DER);
        var parts = outer.ReadSequence();
        outer.ThrowIfNotEmpty();
        var content = parts.ReadSequence();
        if (content.PeekTag().HasSameClassAndValue(Asn1Tag.Integer))
        {
            Require(content.ReadInteger() == 1, "it is of an unknown version");
        }
        _ = content.ReadSequence();
        var issuer = new X500DistinguishedName(content.ReadEncodedValue().Span);
        var thisUpdate = ReadTime(content);
        DateTimeOffset? nextUpdate = IsTime(content) ? ReadTime(content) : null;
        var entries =
            content.HasData && content.PeekTag().HasSameClassAndValue(Asn1Tag.Sequence)
                ? ReadEntries(content.ReadSequence())
                : [];
        var terms = content.HasData
            ? ReadExtensions(content.ReadSequence(Tag0).ReadSequence(), CrlNumber)
            : [];
        content.ThrowIfNotEmpty();
        BigInteger? number = terms.TryGetValue(CrlNumber, out var value)
            ? new AsnReader(value, AsnEncodingRules.DER).ReadInteger()
            : null;
        return new RevocationList(issuer, thisUpdate, nextUpdate, number, entries, encoded);
    }

    private static ImmutableArray<RevokedCertificate> ReadEntries(AsnReader list)
    {
        var entries = ImmutableArray.CreateBuilder<RevokedCertificate>();
        while (list.HasData)
        {
            var entry = list.ReadSequence();
            var serial = Convert.ToHexString(entry.ReadIntegerBytes().Span);
            var from = ReadTime(entry);
            var terms = entry.HasData ? ReadExtensions(entry.ReadSequence(), ReasonCode, InvalidityDate) : [];
            entry.ThrowIfNotEmpty();
            var reason = terms.TryGetValue(ReasonCode, out var code)
                ? (X509RevocationReason)
                    new AsnReader(code, AsnEncodingRules.DER).ReadEnumeratedBytes().Span[0]
                : X509RevocationReason.Unspecified;
            // Since when the key may have been in other hands, when that is before it was revoked.
            if (terms.TryGetValue(InvalidityDate, out var date))
            {
                var since = new AsnReader(date, AsnEncodingRules.DER).ReadGeneralizedTime();
                from = since < from ? since : from;
            }
            entries.Add(new RevokedCertificate(serial, from, reason));
        }
        return entries.ToImmutable();
    }

    private static Dictionary<string, byte[]> ReadExtensions(AsnReader list, params string[] known)
    {
        var found = new Dictionary<string, byte[]>(StringComparer.Ordinal);
        while (list.HasData)
        {
            var extension = list.ReadSequence();
            var type = extension.ReadObjectIdentifier();
            var isCritical =
                extension.PeekTag().HasSameClassAndValue(Asn1Tag.Boolean) && extension.ReadBoolean();
            Require(
                !isCritical || known.Contains(type),
                $"it has a critical part `{type}` that is not known here"
            );
            found[type] = extension.ReadOctetString();
        }
        return found;
    }

    private static bool IsTime(AsnReader reader) =>
        reader.HasData
        && (
            reader.PeekTag().HasSameClassAndValue(Asn1Tag.UtcTime)
            || reader.PeekTag().HasSameClassAndValue(Asn1Tag.GeneralizedTime)
        );

    private static DateTimeOffset ReadTime(AsnReader reader) =>
        reader.PeekTag().HasSameClassAndValue(Asn1Tag.UtcTime)
            ? reader.ReadUtcTime()
            : reader.ReadGeneralizedTime();

    private static void Require(bool condition, string otherwise)
    {
        if (!condition)
        {
            throw new FormatException(otherwise);
        }
    }
}

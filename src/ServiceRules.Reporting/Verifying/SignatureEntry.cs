using System.Globalization;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Verifying.Shape;

namespace ServiceRules.Reporting.Verifying;

/// <summary>The one signature dictionary of a report.</summary>
/// <param name="Dictionary">The dictionary.</param>
/// <param name="SignedAt">The time that the signer states.</param>
/// <param name="TimestampAskedOf">Host of the authority that was to stamp the signature, or null.</param>
internal sealed record SignatureEntry(
    PdfValue.Dictionary Dictionary,
    DateTimeOffset SignedAt,
    string? TimestampAskedOf
)
{
    private static readonly string[] Keys =
    [
        "ByteRange",
        "Contents",
        "Filter",
        "Location",
        "M",
        "Name",
        "Prop_Build",
        "Reason",
        "SubFilter",
        "Type",
    ];

    private static readonly string[] CatalogKeys =
    [
        "AF",
        "AcroForm",
        "Lang",
        "MarkInfo",
        "Metadata",
        "Names",
        "Pages",
        "StructTreeRoot",
        "Type",
        "ViewerPreferences",
    ];

    /// <summary>The signature dictionary, or why there is not exactly one that is fit.</summary>
    public static (SignatureEntry? Entry, string? Fault) Find(PdfTable table)
    {
        if (table.Catalog is not { } catalog)
        {
            return (null, "the file has no catalog");
        }
        if (catalog.Entries.Keys.Except(CatalogKeys, StringComparer.Ordinal).FirstOrDefault() is { } odd)
        {
            return (null, $"the catalog has an entry `{odd}` that reports never have");
        }
        var dictionaries = table.Objects.SelectMany(one => DictionariesIn(one.Value)).ToList();
        if (dictionaries.Count(one => one.NameOf("FT") == "Sig") != 1)
        {
            return (null, "the file must have exactly one signature field");
        }
        if (dictionaries.Count(one => one["ByteRange"] is not null || one.IsType("Sig")) != 1)
        {
            return (null, "the file must have exactly one signature");
        }
        var form = table.Resolve(catalog["AcroForm"]);
        var field = form?["Fields"] is PdfValue.Array { Items: [var only] }
            ? table.Find(only)?.Dictionary
            : null;
        if (form?.DigitsOf("SigFlags") != "3" || field?.NameOf("FT") != "Sig")
        {
            return (null, "the form of the file is not that of a signed report");
        }
        var signature = table.Find(field["V"])?.Dictionary;
        return signature is null ? (null, "the signature field is empty") : Admit(signature);
    }

    private static (SignatureEntry? Entry, string? Fault) Admit(PdfValue.Dictionary signature)
    {
        if (signature.Entries.Keys.Except(Keys, StringComparer.Ordinal).FirstOrDefault() is { } odd)
        {
            return (null, $"the signature has an entry `{odd}` that reports never have");
        }
        if (
            !signature.IsType("Sig")
            || signature.NameOf("Filter") != "Adobe.PPKLite"
            || signature.NameOf("SubFilter") != "ETSI.CAdES.detached"
        )
        {
            return (null, "the signature is not of the kind ETSI.CAdES.detached");
        }
        if (!SignatureReason.TryRead(signature.TextOf("Reason"), out var askedOf))
        {
            return (null, "the signature gives a reason that no report gives");
        }
        return DateTimeOffset.TryParseExact(
            signature.TextOf("M"),
            "'D:'yyyyMMddHHmmss'Z'",
            CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal,
            out var signedAt
        )
            ? (new SignatureEntry(signature, signedAt, askedOf), null)
            : (null, "the signature states no time in the form D:20260102030405Z");
    }

    private static IEnumerable<PdfValue.Dictionary> DictionariesIn(PdfValue value) =>
        value switch
        {
            PdfValue.Dictionary one => one.Entries.Values.SelectMany(DictionariesIn).Prepend(one),
            PdfValue.Array list => list.Items.SelectMany(DictionariesIn),
            _ => [],
        };
}

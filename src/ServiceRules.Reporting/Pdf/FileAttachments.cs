using System.Security.Cryptography;
using PdfSharp.Pdf;
using PdfSharp.Pdf.Advanced;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Attaches files with everything a reader may want to know about them (ISO 32000-2, 7.11 and 14.13).</summary>
internal static class FileAttachments
{
    public static void Add(
        PdfDocument document,
        IReadOnlyCollection<Attachment> attachments,
        DateTimeOffset at
    )
    {
        var associated = new PdfArray(document);
        // The library writes the name tree in the order of adding; readers search it by binary search.
        foreach (var attachment in attachments.OrderBy(item => item.Name, StringComparer.Ordinal))
        {
            RequirePlainName(attachment.Name);
            var before = document.Internals.GetAllObjects().ToHashSet();
            document.AddEmbeddedFile(attachment.Name, new MemoryStream(attachment.Content.ToArray()));
            var added = document.Internals.GetAllObjects().Where(item => !before.Contains(item)).ToList();
            var file = added.OfType<PdfFileSpecification>().Single();
            Complete(file, attachment);
            Complete(added.OfType<PdfEmbeddedFileStream>().Single(), attachment, at);
            associated.Elements.Add(file.Reference!);
        }
        if (associated.Elements.Count > 0)
        {
            document.Internals.Catalog.Elements["/AF"] = associated;
        }
    }

    private static void Complete(PdfFileSpecification file, Attachment attachment)
    {
        file.Elements.SetName("/AFRelationship", $"/{attachment.Relation}");
        file.Elements["/Desc"] = new PdfString(PlainAscii.Of(attachment.Description));
    }

    private static void Complete(PdfEmbeddedFileStream stream, Attachment attachment, DateTimeOffset at)
    {
        stream.Elements.SetName("/Subtype", MediaType(attachment.Name));
        var settings = stream.Elements.GetDictionary("/Params")!;
        var date = PdfInstant.Format(at);
        settings.Elements["/CreationDate"] = new PdfString(date);
        settings.Elements["/ModDate"] = new PdfString(date);
#pragma warning disable CA5351 // The file format asks for MD5 here; nothing rests on it.
        var checksum = MD5.HashData(attachment.Content.Span);
#pragma warning restore CA5351
        settings.Elements["/CheckSum"] = new PdfString(
            new string([.. checksum.Select(octet => (char)octet)]),
            PdfStringEncoding.RawEncoding
        );
    }

    private static string MediaType(string name) =>
        Path.GetExtension(name) switch
        {
            ".json" => "/application/json",
            ".pem" => "/application/x-pem-file",
            ".proof" => "/text/plain",
            var other => throw new ArgumentException(
                $"attachment name `{name}`: its ending `{other}` tells no type; accepted are .json, .pem and .proof",
                nameof(name)
            ),
        };

    private static void RequirePlainName(string name)
    {
        var plain =
            name.Length is > 0 and <= 100
            && name.All(symbol => char.IsAsciiLetterOrDigit(symbol) || symbol is '.' or '-' or '_');
        if (!plain)
        {
            throw new ArgumentException(
                $"attachment name `{name}`: accepted are 1 to 100 letters, digits, dots, hyphens and underscores",
                nameof(name)
            );
        }
    }
}

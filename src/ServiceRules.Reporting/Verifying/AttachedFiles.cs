using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using ServiceRules.Reporting.Verifying.Shape;

namespace ServiceRules.Reporting.Verifying;

/// <summary>Cuts the attachments out of the bytes, by the object table alone.</summary>
internal static class AttachedFiles
{
    public static (IReadOnlyDictionary<string, byte[]> Files, string? Fault) Read(
        ReadOnlyMemory<byte> file,
        PdfTable table
    )
    {
        var files = new SortedDictionary<string, byte[]>(StringComparer.Ordinal);
        return (files, Fill(files, file, table));
    }

    private static string? Fill(
        SortedDictionary<string, byte[]> files,
        ReadOnlyMemory<byte> file,
        PdfTable table
    )
    {
        var hidden = table.Objects.Count(one => one.Dictionary?.IsType("EmbeddedFile") == true);
        var names = table.Resolve(table.Catalog?["Names"]);
        if (names is null)
        {
            return hidden == 0 ? null : "the file holds attachments that it does not list";
        }
        if (
            names.Entries.Count != 1
            || table.Resolve(names["EmbeddedFiles"]) is not { Entries.Count: 1 } tree
            || tree["Names"] is not PdfValue.Array { Items: { Length: var length } pairs }
            || length % 2 != 0
        )
        {
            return "the list of attachments is not in the form of reports";
        }
        if (length / 2 > VerificationLimits.AttachmentsMax)
        {
            return $"the file lists more than {VerificationLimits.AttachmentsMax} attachments";
        }
        var last = "";
        for (var index = 0; index < length; index += 2)
        {
            var name = pairs[index] is PdfValue.Literal key
                ? Encoding.Latin1.GetString(key.Bytes.AsSpan())
                : "";
            if (string.CompareOrdinal(name, last) <= 0)
            {
                return "the attachments are not listed once each, in the order of their names";
            }
            if (Content(file, table, table.Find(pairs[index + 1])?.Dictionary, name) is not { } content)
            {
                return $"the attachment `{name}` is not in the form of reports";
            }
            files.Add(name, content);
            last = name;
        }
        return files.Count == hidden ? null : "the file holds attachments that it does not list";
    }

    private static byte[]? Content(
        ReadOnlyMemory<byte> file,
        PdfTable table,
        PdfValue.Dictionary? entry,
        string name
    )
    {
        if (
            entry is null
            || !entry.IsType("Filespec")
            || entry.TextOf("F") != name
            || entry.TextOf("UF") != name
            || entry["EF"] is not PdfValue.Dictionary streams
            || streams["F"] != streams["UF"]
            || table.Find(streams["F"]) is not { Stream: { } range, Dictionary: { } stream }
            || !stream.IsType("EmbeddedFile")
            || stream["Filter"] is not null
            || stream["Params"] is not PdfValue.Dictionary settings
        )
        {
            return null;
        }
        var content = file[range].ToArray();
        var size = content.Length.ToString(CultureInfo.InvariantCulture);
#pragma warning disable CA5351 // The file format asks for MD5 here; what is trusted is the signature over all bytes.
        var checksum = Encoding.Latin1.GetString(MD5.HashData(content));
#pragma warning restore CA5351
        return settings.DigitsOf("Size") == size && settings.TextOf("CheckSum") == checksum ? content : null;
    }
}

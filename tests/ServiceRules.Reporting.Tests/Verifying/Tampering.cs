using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>
/// The recipes of tests/reference/evidence/pdf/tamper-matrix.csv, by the case number that begins each row. Written
/// with plain text operations on the bytes, as an attacker would, and with no code of the product.
/// </summary>
internal sealed partial class Tampering
{
    private readonly byte[] _file;
    private readonly string _text;

    private Tampering(byte[] file)
    {
        _file = file;
        _text = Encoding.Latin1.GetString(file);
    }

    public static byte[] Apply(string caseName, byte[] file)
    {
        var tampering = new Tampering(file);
        return caseName[..2] switch
        {
            "00" => file,
            "01" => tampering.Flip(tampering.StreamOf(tampering.PageContent).Start),
            "02" => tampering.Flip(tampering.At("record.json") + 1),
            "03" => tampering.Put(tampering.ContentsEnd - 2, "1"),
            "04" => tampering.ChangeLastSignatureDigit(),
            "05" => tampering.Append("\n"),
            "06" => tampering.Append("% a comment\n"),
            "07" => tampering.Update((tampering.PageContent, Stream("BT ET"))),
            "08" => tampering.Append($"{tampering.PageContent} 0 obj\n{Stream("BT ET")}\nendobj\n"),
            "09" => tampering.Update(
                (tampering.PageContent, Stream("BT ET")),
                (tampering.Signature, tampering.BodyOf(tampering.Signature))
            ),
            "10" => tampering.Update((tampering.Evidence, EvidenceStream("{\"a\":666}"))),
            "11" => tampering.Override(Contents(), ""),
            "12" => tampering.Override(Contents(), "/Contents<>"),
            "13" => tampering.Override(Contents(), "/Contents<00>"),
            "14" => tampering.Override(Contents(), "/Contents null"),
            "15" => tampering.Override(ByteRange(), ""),
            "16" => tampering.Override(ByteRange(), "/ByteRange null"),
            "17" => tampering.Override(ByteRange(), "/ByteRange[]"),
            "18" => tampering.Override(ByteRange(), "/ByteRange[0 -1 -2 -3]"),
            "19" => tampering.Override(ByteRange(), $"/ByteRange[0 {tampering.Range[1]}]"),
            "20" => tampering.Override(ByteRange(), tampering.RangeWith(last: "0")),
            "21" => tampering.Override(ByteRange(), tampering.RangeWith(last: "99999999999")),
            "22" => tampering.ShiftSecondPart(),
            "23" => file[..^64],
            "24" => tampering.Override(SubFilter(), "/SubFilter/adbe.pkcs7.sha1"),
            "25" => tampering.Update(
                (tampering.Catalog, AcroForm().Replace(tampering.BodyOf(tampering.Catalog), ""))
            ),
            "26" => tampering.AddAnnotation(),
            "27" => tampering.PointNameElsewhere(),
            "28" => tampering.Update((tampering.Count, "<</Unused true>>")),
            "29" => [.. "% before\n"u8, .. file],
            "30" => tampering.ShortenFirstRange(),
            "31" => tampering.LowerContents(),
            _ => throw new InvalidOperationException($"no recipe for case {caseName}"),
        };
    }

    private int Count => int.Parse(Size().Matches(_text)[^1].Groups[1].Value, CultureInfo.InvariantCulture);

    private int Catalog => ObjectWith("/Type/Catalog");

    private int Page => ObjectWith("/Type/Page/");

    private int Signature => ObjectWith("/Type/Sig/");

    private int Evidence => ObjectWith("/Type/EmbeddedFile");

    private int PageContent =>
        int.Parse(PageContents().Match(BodyOf(Page)).Groups[1].Value, CultureInfo.InvariantCulture);

    private int ContentsEnd => _text.IndexOf('>', At("/Contents<")) + 1;

    private string[] Range => ByteRange().Match(_text).Groups[1].Value.Split(' ');

    private string RangeWith(string last) => $"/ByteRange[{Range[0]} {Range[1]} {Range[2]} {last}]";

    private int At(string text) => _text.IndexOf(text, StringComparison.Ordinal);

    private int ObjectWith(string part)
    {
        var start = _text.LastIndexOf(" 0 obj\n", At(part), StringComparison.Ordinal);
        var line = _text.LastIndexOf('\n', start) + 1;
        return int.Parse(_text[line..start], CultureInfo.InvariantCulture);
    }

    private (int Start, int End) BodyRange(int number)
    {
        var head = $"\n{number} 0 obj\n";
        var start = At(head) + head.Length;
        return (start, _text.IndexOf("\nendobj\n", start, StringComparison.Ordinal));
    }

    private string BodyOf(int number)
    {
        var (start, end) = BodyRange(number);
        return _text[start..end];
    }

    private (int Start, int End) StreamOf(int number)
    {
        var (start, end) = BodyRange(number);
        return (_text.IndexOf("\nstream\n", start, StringComparison.Ordinal) + 8, end);
    }

    private byte[] Flip(int at)
    {
        byte[] copy = [.. _file];
        copy[at] ^= 1;
        return copy;
    }

    private byte[] Put(int at, string text)
    {
        byte[] copy = [.. _file];
        Encoding.Latin1.GetBytes(text).CopyTo(copy, at);
        return copy;
    }

    private byte[] Append(string text) => [.. _file, .. Encoding.Latin1.GetBytes(text)];

    private static string Stream(string content) =>
        $"<</Length {content.Length}>>\nstream\n{content}\nendstream";

    private static string EvidenceStream(string content) =>
        $"<</Type/EmbeddedFile/Length {content.Length}>>\nstream\n{content}\nendstream";

    /// <summary>A well-formed incremental update that replaces or adds objects.</summary>
    private byte[] Update(params (int Number, string Body)[] objects)
    {
        var text = new StringBuilder();
        var table = new StringBuilder("xref\n");
        foreach (var (number, body) in objects)
        {
            table.Append(
                CultureInfo.InvariantCulture,
                $"{number} 1\n{_file.Length + text.Length:D10} 00000 n \n"
            );
            text.Append(CultureInfo.InvariantCulture, $"{number} 0 obj\n{body}\nendobj\n");
        }
        var at = _file.Length + text.Length;
        var previous = StartXref().Matches(_text)[^1].Groups[1].Value;
        var size = Math.Max(Count, objects.Max(one => one.Number) + 1);
        text.Append(table)
            .Append(
                CultureInfo.InvariantCulture,
                $"trailer\n<</Size {size}/Root {Catalog} 0 R/Prev {previous}>>\nstartxref\n{at}\n%%EOF\n"
            );
        return Append(text.ToString());
    }

    /// <summary>Replaces the page content and the signature dictionary in one update.</summary>
    private byte[] Override(Regex entry, string by) =>
        Update(
            (PageContent, Stream("BT ET")),
            (Signature, entry.Replace(BodyOf(Signature), by.Replace("$", "$$", StringComparison.Ordinal)))
        );

    private byte[] ChangeLastSignatureDigit()
    {
        var digits = _text[(At("/Contents<") + 10)..(ContentsEnd - 1)];
        var bytes = Convert.FromHexString(digits);
        // A DER SEQUENCE with a two-byte length: 30 82 hh ll.
        var length = 4 + (bytes[2] << 8) + bytes[3];
        var at = At("/Contents<") + 10 + (2 * length) - 1;
        return Put(at, _text[at] == '0' ? "1" : "0");
    }

    private byte[] ShiftSecondPart()
    {
        var filler =
            $"/ByteRange[{Range[0]} {Range[1]} {int.Parse(Range[2], CultureInfo.InvariantCulture) + 4000} {Range[3]}]";
        return
        [
            .. _file[..ContentsEnd],
            .. Encoding.Latin1.GetBytes(filler.PadRight(4000)),
            .. _file[ContentsEnd..],
        ];
    }

    private byte[] AddAnnotation()
    {
        var note =
            "<</Type/Annot/Subtype/FreeText/Rect[50 50 300 100]/Contents(all in order)/DA(/F0 12 Tf)>>";
        var page = BodyOf(Page).Replace("/Annots[", $"/Annots[{Count} 0 R ", StringComparison.Ordinal);
        return Update((Page, page), (Count, note));
    }

    private byte[] PointNameElsewhere()
    {
        var names = ObjectWith("/Names[(");
        var file = $"<</Type/Filespec/F(record.json)/UF(record.json)/EF<</F {Count + 1} 0 R>>>>";
        return Update(
            (names, $"<</Names[(record.json){Count} 0 R]>>"),
            (Count, file),
            (Count + 1, EvidenceStream("{\"a\":666}"))
        );
    }

    private byte[] ShortenFirstRange()
    {
        var shorter = int.Parse(Range[1], CultureInfo.InvariantCulture) - 1;
        var range = $"/ByteRange[{Range[0]} {shorter} {Range[2]} {Range[3]}]";
        return Put(At("/ByteRange["), range);
    }

    private byte[] LowerContents()
    {
        var start = At("/Contents<") + 10;
#pragma warning disable CA1308 // The case is about lower case.
        return Put(start, _text[start..(ContentsEnd - 1)].ToLowerInvariant());
#pragma warning restore CA1308
    }

    [GeneratedRegex(@"/Contents<[0-9A-F]*>")]
    private static partial Regex Contents();

    [GeneratedRegex(@"/ByteRange\[([^\]]*)\]")]
    private static partial Regex ByteRange();

    [GeneratedRegex(@"/SubFilter/[A-Za-z.]*")]
    private static partial Regex SubFilter();

    [GeneratedRegex(@"/AcroForm<<.*?>>")]
    private static partial Regex AcroForm();

    [GeneratedRegex(@"/Contents (\d+) 0 R")]
    private static partial Regex PageContents();

    [GeneratedRegex(@"/Size (\d+)>>")]
    private static partial Regex Size();

    [GeneratedRegex(@"startxref\n(\d+)\n")]
    private static partial Regex StartXref();
}

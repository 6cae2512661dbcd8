using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>
/// A writer that holds the right key and has no scruples: takes a report apart, changes what it likes, and signs the
/// result in every way as a report is signed.
/// </summary>
internal sealed partial class ForgedReport
{
    private const string Header = "%PDF-1.7\n%\u00D3\u00F4\u00CC\u00E1\n";

    private readonly SortedDictionary<int, string> _objects = [];
    private string _trailer;

    public ForgedReport(byte[] report)
    {
        var text = Encoding.Latin1.GetString(report);
        var table = int.Parse(StartXref().Match(text).Groups[1].Value, CultureInfo.InvariantCulture);
        var offsets = TableEntry()
            .Matches(text[table..])
            .Select(entry => int.Parse(entry.Groups[1].Value, CultureInfo.InvariantCulture))
            .ToList();
        for (var index = 0; index < offsets.Count; index++)
        {
            var end = index + 1 < offsets.Count ? offsets[index + 1] : table;
            var start = text.IndexOf(" 0 obj\n", offsets[index], StringComparison.Ordinal) + 7;
            _objects[index + 1] = text[start..(end - "\nendobj\n".Length)];
        }
        var from = text.IndexOf("trailer\n", table, StringComparison.Ordinal);
        _trailer = text[from..text.IndexOf("startxref", from, StringComparison.Ordinal)];
    }

    public string this[int number]
    {
        get => _objects[number];
        set => _objects[number] = value;
    }

    public int Add(string body)
    {
        var number = _objects.Count + 1;
        _objects[number] = body;
        return number;
    }

    /// <summary>The number of the only or first object that holds these words.</summary>
    public int Find(string words) =>
        _objects.First(one => one.Value.Contains(words, StringComparison.Ordinal)).Key;

    public IReadOnlyList<int> All(string words) =>
        [
            .. _objects
                .Where(one => one.Value.Contains(words, StringComparison.Ordinal))
                .Select(one => one.Key),
        ];

    /// <summary>The object that an entry of another refers to.</summary>
    public int Referred(int from, string key) =>
        int.Parse(
            Regex
                .Match(_objects[from], $@"/{key}[ \[](\d+) 0 R", RegexOptions.CultureInvariant)
                .Groups[1]
                .Value,
            CultureInfo.InvariantCulture
        );

    public void ChangeTrailer(string from, string to)
    {
        Assert.Contains(from, _trailer, StringComparison.Ordinal);
        _trailer = _trailer.Replace(from, to, StringComparison.Ordinal);
    }

    public string StreamOf(int number)
    {
        var body = _objects[number];
        var start = body.IndexOf("\nstream\n", StringComparison.Ordinal) + 8;
        return body[start..^"\nendstream".Length];
    }

    public void SetStream(int number, string content)
    {
        var body = _objects[number];
        var head = body[..body.IndexOf("\nstream\n", StringComparison.Ordinal)];
        head = Length().Replace(head, $"/Length {content.Length}");
        _objects[number] = $"{head}\nstream\n{content}\nendstream";
    }

    public byte[] UnpackedStreamOf(int number)
    {
        using var source = new MemoryStream(Encoding.Latin1.GetBytes(StreamOf(number)));
        using var unpacking = new ZLibStream(source, CompressionMode.Decompress);
        using var content = new MemoryStream();
        unpacking.CopyTo(content);
        return content.ToArray();
    }

    public void SetPackedStream(int number, byte[] content, CompressionLevel level)
    {
        using var packed = new MemoryStream();
        using (var packing = new ZLibStream(packed, level, leaveOpen: true))
        {
            packing.Write(content);
        }
        SetStream(number, Encoding.Latin1.GetString(packed.ToArray()));
    }

    public byte[] Sign(SigningKey key)
    {
        var text = new StringBuilder(Header);
        var table = new StringBuilder();
        table.Append(CultureInfo.InvariantCulture, $"xref\n0 {_objects.Count + 1}\n0000000000 65535 f \n");
        foreach (var (number, body) in _objects)
        {
            table.Append(CultureInfo.InvariantCulture, $"{text.Length:D10} 00000 n \n");
            text.Append(CultureInfo.InvariantCulture, $"{number} 0 obj\n{body}\nendobj\n");
        }
        var trailer = Size().Replace(_trailer, $"/Size {_objects.Count + 1}");
        var at = text.Length;
        text.Append(table).Append(trailer);
        text.Append(CultureInfo.InvariantCulture, $"startxref\n{at}\n%%EOF\n");
        return Signed(text.ToString(), key);
    }

    private static byte[] Signed(string text, SigningKey key)
    {
        var signature = text.IndexOf("/Type/Sig/", StringComparison.Ordinal);
        var start = text.IndexOf("/Contents<", signature, StringComparison.Ordinal) + 9;
        var end = text.IndexOf('>', start) + 1;
        var from = text.IndexOf("/ByteRange[", signature, StringComparison.Ordinal) + 10;
        var until = text.IndexOf("/Reason", from, StringComparison.Ordinal);
        var range = string.Create(CultureInfo.InvariantCulture, $"[0 {start} {end} {text.Length - end}]");
        var file = Encoding.Latin1.GetBytes(text);
        Encoding.Latin1.GetBytes(range.PadRight(until - from)).CopyTo(file, from);
        var digits = Convert.ToHexString(BaselineSignature.Over([.. file[..start], .. file[end..]], key));
        Encoding.Latin1.GetBytes(digits.PadRight(end - start - 2, '0')).CopyTo(file, start + 1);
        return file;
    }

    [GeneratedRegex(@"startxref\n(\d+)\n%%EOF\n\z")]
    private static partial Regex StartXref();

    [GeneratedRegex(@"^(\d{10}) 00000 n \n", RegexOptions.Multiline)]
    private static partial Regex TableEntry();

    [GeneratedRegex(@"/Size \d+")]
    private static partial Regex Size();

    [GeneratedRegex(@"/Length \d+")]
    private static partial Regex Length();
}

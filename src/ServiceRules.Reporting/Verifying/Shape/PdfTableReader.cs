using System.Globalization;
using System.Text.RegularExpressions;

namespace ServiceRules.Reporting.Verifying.Shape;

/// <summary>
/// Reads a file that is exactly one revision as this product writes it: header, objects one after the other without a
/// byte between, cross-reference table, trailer, end. Anything else is a fault; nothing is repaired.
/// </summary>
internal sealed partial class PdfTableReader
{
    private const int EntryLength = 20;

    private static readonly byte[] Header = [.. "%PDF-1.7\n%"u8, 0xD3, 0xF4, 0xCC, 0xE1, (byte)'\n'];

    private static readonly string[] TrailerKeys = ["ID", "Info", "Root", "Size"];

    private readonly ReadOnlyMemory<byte> _file;
    private readonly ValueBudget _budget = new(VerificationLimits.ValuesMax);
    private string? _fault;

    private PdfTableReader(ReadOnlyMemory<byte> file) => _file = file;

    public static (PdfTable? Table, string? Fault) Read(ReadOnlyMemory<byte> file)
    {
        var reader = new PdfTableReader(file);
        var table = reader.Read();
        return (reader._fault is null ? table : null, reader._fault);
    }

    private PdfTable? Read()
    {
        if (!_file.Span.StartsWith(Header))
        {
            return Fail("the file does not begin as reports do");
        }
        if (FindTable() is not { } tableAt || ReadTable(tableAt) is not var (offsets, trailer))
        {
            return null;
        }
        var objects = new List<PdfObject>(offsets.Length);
        var expected = Header.Length;
        for (var index = 0; index < offsets.Length; index++)
        {
            if (offsets[index] != expected)
            {
                return Fail($"object {index + 1} does not follow the one before it");
            }
            var limit = index + 1 < offsets.Length ? offsets[index + 1] : tableAt;
            if (limit <= expected || limit > tableAt || ReadObject(index + 1, expected, limit) is not { } one)
            {
                return Fail($"object {index + 1} has no room");
            }
            objects.Add(one);
            expected = limit;
        }
        return expected == tableAt
            ? new PdfTable(objects, trailer)
            : Fail("there are bytes between the objects and their table");
    }

    private PdfTable? Fail(string fault)
    {
        _fault ??= fault;
        return null;
    }

    /// <summary>Where the table begins, as the last lines of the file say.</summary>
    private int? FindTable()
    {
        const int LongestEnd = 40;
        var from = Math.Max(0, _file.Length - LongestEnd);
        var at = _file.Span[from..].LastIndexOf("\nstartxref\n"u8);
        if (at < 0)
        {
            Fail("the file does not end as reports do");
            return null;
        }
        var scanner = new PdfScanner(_file, from + at, _file.Length);
        scanner.Expect("\nstartxref\n");
        var table = scanner.ReadCount();
        scanner.Expect("\n%%EOF\n");
        if (scanner.Fault is not null || scanner.At != _file.Length || table >= from + at)
        {
            Fail("the file does not end as reports do");
            return null;
        }
        return table;
    }

    private (int[] Offsets, PdfValue.Dictionary Trailer)? ReadTable(int at)
    {
        var scanner = new PdfScanner(_file, at, _file.Length, _budget);
        scanner.Expect("xref\n0 ");
        var count = scanner.ReadCount();
        scanner.Expect("\n0000000000 65535 f \n");
        if (scanner.Fault is not null || count is not (> 1 and <= VerificationLimits.ObjectsMax))
        {
            Fail("the object table is not in the form of reports: the file has another revision or writer");
            return null;
        }
        var offsets = new int[count.Value - 1];
        for (var index = 0; index < offsets.Length; index++)
        {
            if (ReadEntry(scanner.At) is not { } offset)
            {
                Fail($"the object table has no plain entry for object {index + 1}");
                return null;
            }
            offsets[index] = offset;
            scanner.Skip(EntryLength);
        }
        return ReadTrailer(scanner, count.Value, at) is { } trailer ? (offsets, trailer) : null;
    }

    private int? ReadEntry(int at)
    {
        if (at + EntryLength > _file.Length)
        {
            return null;
        }
        var entry = _file.Span.Slice(at, EntryLength);
        var plain = entry[10..].SequenceEqual(" 00000 n \n"u8);
        return
            plain
            && int.TryParse(entry[..10], NumberStyles.None, CultureInfo.InvariantCulture, out var offset)
            ? offset
            : null;
    }

    private PdfValue.Dictionary? ReadTrailer(PdfScanner scanner, int count, int tableAt)
    {
        scanner.Expect("trailer\n");
        var trailer = scanner.ReadValue() as PdfValue.Dictionary;
        if (scanner.StandsHere("%") && !WriterNote().IsMatch(scanner.ReadLine()))
        {
            Fail("there is a comment that the writer of reports does not write");
            return null;
        }
        var end = string.Create(CultureInfo.InvariantCulture, $"startxref\n{tableAt}\n%%EOF\n");
        scanner.Expect(end);
        if (scanner.Fault is not null || trailer is null || scanner.At != _file.Length)
        {
            Fail("there is something between the object table and the end of the file");
            return null;
        }
        var size = count.ToString(CultureInfo.InvariantCulture);
        if (!trailer.Entries.Keys.SequenceEqual(TrailerKeys) || trailer.DigitsOf("Size") != size)
        {
            Fail("the trailer has other entries than reports have: the file has another revision or writer");
            return null;
        }
        if (
            trailer["ID"] is not PdfValue.Array { Items: [PdfValue.Hex one, PdfValue.Hex two] }
            || !IsIdentifier(one)
            || !IsIdentifier(two)
        )
        {
            Fail("the file identifiers are not two of 16 bytes");
            return null;
        }
        return trailer;
    }

    /// <summary>The writer draws them by lot, so that their length is all that can be held against them.</summary>
    private bool IsIdentifier(PdfValue.Hex hex) =>
        hex.End - hex.Start == 34 && !_file.Span[hex.Start..hex.End].Contains((byte)'\n');

    [GeneratedRegex(
        @"^% Created with PDFsharp [0-9.]{1,20}( \([A-Z]{1,10}\))? under \.NET [0-9A-Za-z.\-]{1,30}$"
    )]
    private static partial Regex WriterNote();

    private PdfObject? ReadObject(int number, int from, int to)
    {
        var scanner = new PdfScanner(_file, from, to, _budget);
        scanner.Expect(string.Create(CultureInfo.InvariantCulture, $"{number} 0 obj\n"));
        var value = scanner.Fault is null ? scanner.ReadValue() : null;
        Range? stream = null;
        if (scanner.Fault is null && scanner.StandsHere("\nstream\n"))
        {
            stream = ReadStream(scanner, value as PdfValue.Dictionary, to);
        }
        scanner.Expect("\nendobj\n");
        if (scanner.Fault is null && scanner.At == to && value is not null)
        {
            return new PdfObject(number, value, stream);
        }
        Fail(
            $"object {number} is not in the form of reports: {scanner.Fault ?? "it is longer than it says"}"
        );
        return null;
    }

    private static Range? ReadStream(PdfScanner scanner, PdfValue.Dictionary? dictionary, int to)
    {
        scanner.Expect("\nstream\n");
        var start = scanner.At;
        if (
            int.TryParse(
                dictionary?.DigitsOf("Length"),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var length
            )
            && length <= to - start
        )
        {
            scanner.Skip(length);
        }
        scanner.Expect("\nendstream");
        return start..(start + length);
    }
}

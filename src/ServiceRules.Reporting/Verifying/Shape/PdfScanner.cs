using System.Collections.Immutable;
using System.Globalization;

namespace ServiceRules.Reporting.Verifying.Shape;

/// <summary>
/// Reads values as this product's writer spells them: no comments, no second entry of a key, bounded nesting, every
/// token ended by white space or a delimiter. Readers differ in what they make of tokens that run into each other, so
/// that one spelling could be two documents. The first fault ends it.
/// </summary>
internal sealed class PdfScanner(ReadOnlyMemory<byte> file, int start, int end, ValueBudget? budget = null)
{
    public int At { get; private set; } = start;

    public string? Fault { get; private set; }

    private int Here => At < end ? file.Span[At] : -1;

    private int Next => At + 1 < end ? file.Span[At + 1] : -1;

    /// <summary>Steps over the exact ASCII text, or notes a fault.</summary>
    public bool Expect(string ascii)
    {
        if (!StandsHere(ascii))
        {
            Fail($"`{ascii.TrimEnd('\n')}` is missing");
            return false;
        }
        At += ascii.Length;
        return true;
    }

    public bool StandsHere(string ascii)
    {
        if (At + ascii.Length > end)
        {
            return false;
        }
        for (var index = 0; index < ascii.Length; index++)
        {
            if (file.Span[At + index] != ascii[index])
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>A whole number without sign and leading zeros.</summary>
    public int? ReadCount()
    {
        var from = At;
        while (Here is >= '0' and <= '9')
        {
            At++;
        }
        var digits = Spelling(from);
        if (
            digits.Length is 0 or > 9
            || (digits.Length > 1 && digits[0] == '0')
            || !int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var value)
        )
        {
            Fail("a plain number is missing");
            return null;
        }
        return value;
    }

    /// <summary>To the end of the line, which must be printable ASCII.</summary>
    public string ReadLine()
    {
        var from = At;
        while (Here is >= 0x20 and <= 0x7E)
        {
            At++;
        }
        var line = Spelling(from);
        Expect("\n");
        return line;
    }

    public void Skip(int count) => At += count;

    public PdfValue? ReadValue(int depth = 0)
    {
        if (depth > VerificationLimits.DepthMax)
        {
            return Fail($"values are nested deeper than {VerificationLimits.DepthMax}");
        }
        if (budget is not null && !budget.TryTake())
        {
            return Fail($"the file holds more than {VerificationLimits.ValuesMax} values");
        }
        SkipSpaces();
        return Here switch
        {
            '/' => Ended(new PdfValue.Name(ReadName())),
            '(' => ReadLiteral(),
            '[' => ReadArray(depth),
            '<' when Next == '<' => ReadDictionary(depth),
            '<' => ReadHex(),
            (>= '0' and <= '9') or '-' or '.' => Ended(ReadNumberOrReference()),
            't' or 'f' or 'n' => Ended(ReadWord()),
            _ => Fail("a value is missing"),
        };
    }

    private PdfValue? Fail(string fault)
    {
        Fault ??= string.Create(CultureInfo.InvariantCulture, $"at byte {At}: {fault}");
        return null;
    }

    /// <summary>The value just read, unless something runs into it.</summary>
    private PdfValue? Ended(PdfValue? value) =>
        value is null || Here is -1 or ' ' or '\n' or '/' or '(' or '<' or '>' or '[' or ']'
            ? value
            : Fail("a value runs into what follows it");

    private string Spelling(int from) => System.Text.Encoding.Latin1.GetString(file.Span[from..At]);

    private void SkipSpaces()
    {
        while (Here is ' ' or '\n')
        {
            At++;
        }
    }

    private string ReadName()
    {
        At++;
        var from = At;
        while (
            Here > ' '
            && Here < 0x7F
            && Here is not ('/' or '(' or ')' or '<' or '>' or '[' or ']' or '{' or '}' or '%')
        )
        {
            At++;
        }
        return Spelling(from);
    }

    private PdfValue? ReadWord()
    {
        foreach (var word in (ReadOnlySpan<string>)["true", "false", "null"])
        {
            if (StandsHere(word))
            {
                At += word.Length;
                return new PdfValue.Word(word);
            }
        }
        return Fail("a value is missing");
    }

    private PdfValue? ReadNumberOrReference()
    {
        var from = At;
        while (Here is (>= '0' and <= '9') or '-' or '.')
        {
            At++;
        }
        var digits = Spelling(from);
        if (!StandsHere(" 0 R"))
        {
            return IsPlainNumber(digits)
                ? new PdfValue.Number(digits)
                : Fail("a number is not spelled plainly");
        }
        At += 4;
        return
            digits.Length > 0
            && digits[0] != '0'
            && int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var target)
            ? new PdfValue.Reference(target)
            : Fail("a reference has no plain number");
    }

    /// <summary>A sign or none, digits, at most one point with digits behind it.</summary>
    private static bool IsPlainNumber(string text)
    {
        var parts = (text.StartsWith('-') ? text[1..] : text).Split('.');
        return parts.Length <= 2 && parts.All(part => part.Length > 0 && part.All(char.IsAsciiDigit));
    }

    private PdfValue? ReadHex()
    {
        var from = At;
        At++;
        // The writer folds long strings; the signature itself is held to bare digits elsewhere.
        while (Here is (>= '0' and <= '9') or (>= 'A' and <= 'F') or (>= 'a' and <= 'f') or '\n')
        {
            At++;
        }
        if (Here != '>')
        {
            return Fail("a hex string has something else than hex digits");
        }
        At++;
        return new PdfValue.Hex(from, At);
    }

    private PdfValue.Array? ReadArray(int depth)
    {
        At++;
        var items = ImmutableArray.CreateBuilder<PdfValue>();
        for (SkipSpaces(); Here != ']'; SkipSpaces())
        {
            if (ReadValue(depth + 1) is not { } item)
            {
                return null;
            }
            items.Add(item);
        }
        At++;
        return new PdfValue.Array(items.ToImmutable());
    }

    private PdfValue.Dictionary? ReadDictionary(int depth)
    {
        At += 2;
        var entries = ImmutableSortedDictionary.CreateBuilder<string, PdfValue>(StringComparer.Ordinal);
        for (SkipSpaces(); !StandsHere(">>"); SkipSpaces())
        {
            if (Here != '/')
            {
                Fail("a dictionary key is missing");
                return null;
            }
            var key = ReadName();
            if (Ended(new PdfValue.Name(key)) is null)
            {
                return null;
            }
            if (ReadValue(depth + 1) is not { } value)
            {
                return null;
            }
            if (!entries.TryAdd(key, value))
            {
                Fail($"the key `{key}` stands twice in one dictionary");
                return null;
            }
        }
        At += 2;
        return new PdfValue.Dictionary(entries.ToImmutable());
    }

    private PdfValue? ReadLiteral()
    {
        At++;
        var bytes = ImmutableArray.CreateBuilder<byte>();
        for (var open = 1; ; )
        {
            switch (Here)
            {
                case -1:
                    return Fail("a string does not end");
                case '\\':
                    if (!ReadEscape(bytes))
                    {
                        return Fail("a string has an unknown escape");
                    }
                    continue;
                case '(':
                    open++;
                    break;
                case ')' when --open == 0:
                    At++;
                    return new PdfValue.Literal(bytes.ToImmutable());
                default:
                    break;
            }
            bytes.Add((byte)Here);
            At++;
        }
    }

    private bool ReadEscape(ImmutableArray<byte>.Builder bytes)
    {
        var symbol = Next;
        int? plain = symbol switch
        {
            'n' => '\n',
            'r' => '\r',
            't' => '\t',
            'b' => '\b',
            'f' => '\f',
            '(' or ')' or '\\' => symbol,
            _ => null,
        };
        if (plain is { } one)
        {
            bytes.Add((byte)one);
            At += 2;
            return true;
        }
        if (At + 4 > end)
        {
            return false;
        }
        var value = 0;
        foreach (var digit in file.Span.Slice(At + 1, 3))
        {
            if (digit is < (byte)'0' or > (byte)'7')
            {
                return false;
            }
            value = (value * 8) + (digit - '0');
        }
        if (value > 255)
        {
            return false;
        }
        bytes.Add((byte)value);
        At += 4;
        return true;
    }
}

using System.Collections.Immutable;

namespace ServiceRules.Reporting.Verifying.Shape;

/// <summary>A value as it stands in the file. Names and numbers keep their spelling.</summary>
internal abstract record PdfValue
{
    private PdfValue() { }

    /// <summary>true, false or null.</summary>
    public sealed record Word(string Spelling) : PdfValue;

    public sealed record Number(string Digits) : PdfValue;

    public sealed record Name(string Spelling) : PdfValue;

    /// <summary>A string in parentheses, its escapes resolved.</summary>
    public sealed record Literal(ImmutableArray<byte> Bytes) : PdfValue;

    /// <summary>A string in angle brackets; positions of <c>&lt;</c> and of the byte after <c>&gt;</c>.</summary>
    public sealed record Hex(int Start, int End) : PdfValue;

    public sealed record Reference(int Object) : PdfValue;

    public sealed record Array(ImmutableArray<PdfValue> Items) : PdfValue;

    public sealed record Dictionary(ImmutableSortedDictionary<string, PdfValue> Entries) : PdfValue
    {
        public PdfValue? this[string key] => Entries.GetValueOrDefault(key);

        public bool IsType(string type) => this["Type"] is Name name && name.Spelling == type;

        public string? TextOf(string key) =>
            this[key] is Literal literal
                ? System.Text.Encoding.Latin1.GetString(literal.Bytes.AsSpan())
                : null;

        public string? NameOf(string key) => (this[key] as Name)?.Spelling;

        public string? DigitsOf(string key) => (this[key] as Number)?.Digits;
    }
}

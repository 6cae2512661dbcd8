using System.Globalization;
using System.Text.Json;
using System.Text.Unicode;

namespace ServiceRules.Formats.Json.Source;

/// <summary>
/// Builds a <see cref="SourceDocument"/> from bytes. The syntax is decided by the platform's JSON reader alone; this
/// type keeps the places, the bounds and the words.
/// </summary>
internal sealed class SourceReader
{
    // Deeper than our own bound, so that our own bound speaks first.
    private const int SyntaxDepth = ReadLimits.Depth + 2;

    private readonly ReadOnlyMemory<byte> bytes;
    private readonly ReadLimits limits;
    private readonly ProblemList problems;
    private readonly SourceLines lines;
    private readonly Dictionary<SourceNode, HashSet<string>> names = [];
    private SourceNode? root;
    private SourceNode? holder;
    private string? name;
    private int nameOffset;
    private bool nameRepeats;
    private int values;

    private SourceReader(ReadOnlyMemory<byte> bytes, ReadLimits limits, ProblemList problems)
    {
        this.bytes = bytes;
        this.limits = limits;
        this.problems = problems;
        lines = new(bytes);
    }

    /// <summary>The document, or nothing when a problem ended the reading.</summary>
    public static SourceDocument? Read(ReadOnlyMemory<byte> bytes, ReadLimits limits, ProblemList problems)
    {
        if (bytes.Length > limits.Bytes)
        {
            problems.Add(TooLarge(limits));
            return null;
        }

        ReadOnlySpan<byte> mark = [0xEF, 0xBB, 0xBF];
        ReadOnlyMemory<byte> text = bytes.Span.StartsWith(mark) ? bytes[mark.Length..] : bytes;
        SourceReader reader = new(text, limits, problems);
        if (!Utf8.IsValid(text.Span))
        {
            problems.Add(reader.NotUtf8());
            return null;
        }

        return reader.ReadTokens() ? new(reader.root!, reader.lines) : null;
    }

    public static Problem TooLarge(ReadLimits limits) =>
        new(
            ProblemCode.Size,
            "",
            1,
            1,
            "the document is too large",
            "",
            string.Create(CultureInfo.InvariantCulture, $"at most {limits.Bytes} bytes")
        );

    private Problem NotUtf8()
    {
        ReadOnlySpan<byte> span = bytes.Span;
        bool wide = span is [0xFE, 0xFF, ..] or [0xFF, 0xFE, ..];
        int at = 0;
        while (
            System.Text.Rune.DecodeFromUtf8(span[at..], out _, out int consumed)
            == System.Buffers.OperationStatus.Done
        )
        {
            at += consumed;
        }

        string found = string.Create(CultureInfo.InvariantCulture, $"byte 0x{span[at]:X2}");
        return Stop(
            ProblemCode.Encoding,
            at,
            wide ? "the document is UTF-16 text" : "the document is not UTF-8 text",
            found,
            "UTF-8 without errors"
        );
    }

    private bool ReadTokens()
    {
        Utf8JsonReader reader = new(bytes.Span, new JsonReaderOptions { MaxDepth = SyntaxDepth });
        JsonTokenType last = JsonTokenType.None;
        try
        {
            while (reader.Read())
            {
                if (!Take(ref reader))
                {
                    return false;
                }

                last = reader.TokenType;
            }

            return true;
        }
        catch (JsonException wrong)
        {
            int at = lines.OffsetOf(wrong.LineNumber ?? 0, wrong.BytePositionInLine ?? 0);
            problems.Add(SyntaxProblem(last, at));
            return false;
        }
    }

    private bool Take(ref Utf8JsonReader reader)
    {
        int offset = (int)reader.TokenStartIndex;
        switch (reader.TokenType)
        {
            case JsonTokenType.PropertyName:
                TakeName(ref reader, offset);
                return true;
            case JsonTokenType.EndObject or JsonTokenType.EndArray:
                names.Remove(holder!);
                holder = holder!.Parent;
                return true;
            default:
                return TakeValue(ref reader, offset);
        }
    }

    private bool TakeValue(ref Utf8JsonReader reader, int offset)
    {
        values++;
        if (values > limits.Values)
        {
            string most = string.Create(CultureInfo.InvariantCulture, $"at most {limits.Values} values");
            problems.Add(Stop(ProblemCode.Values, offset, "the document holds too many values", "", most));
            return false;
        }

        SourceKind kind = KindOf(reader.TokenType);
        bool holds = kind is SourceKind.Object or SourceKind.List;
        if (holds && reader.CurrentDepth >= ReadLimits.Depth)
        {
            string most = string.Create(CultureInfo.InvariantCulture, $"at most {ReadLimits.Depth} levels");
            problems.Add(
                Stop(ProblemCode.Depth, offset, "objects and lists are nested too deeply", "", most)
            );
            return false;
        }

        SourceNode node = NodeOf(ref reader, kind, offset);
        Keep(node);
        holder = holds ? node : holder;
        return true;
    }

    private SourceNode NodeOf(ref Utf8JsonReader reader, SourceKind kind, int offset)
    {
        if (kind == SourceKind.Number)
        {
            return Node(kind, offset, System.Text.Encoding.ASCII.GetString(reader.ValueSpan), true);
        }

        if (kind != SourceKind.Text)
        {
            return Node(kind, offset, "", true);
        }

        bool wellFormed = TryDecode(ref reader, out string content);
        return Node(kind, offset, content, wellFormed);
    }

    private SourceNode Node(SourceKind kind, int offset, string content, bool wellFormed) =>
        new(kind, offset, holder, name, nameOffset) { Content = content, IsWellFormed = wellFormed };

    private void Keep(SourceNode node)
    {
        root ??= node;
        // A repeated name was told; its second value must not stand for the first.
        if (!nameRepeats)
        {
            holder?.Add(node);
        }

        name = null;
        nameRepeats = false;
    }

    private void TakeName(ref Utf8JsonReader reader, int offset)
    {
        bool wellFormed = TryDecode(ref reader, out string decoded);
        name = decoded;
        nameOffset = offset;
        if (!names.TryGetValue(holder!, out HashSet<string>? known))
        {
            names[holder!] = known = new(StringComparer.Ordinal);
        }

        nameRepeats = !known.Add(decoded);
        JsonPointer pointer = problems.HasRoom ? holder!.Pointer.Member(decoded) : JsonPointer.Root;
        if (!wellFormed)
        {
            problems.Add(
                At(pointer, ProblemCode.TextSurrogate, offset, Surrogate, decoded, SurrogateAccepted)
            );
        }

        if (nameRepeats)
        {
            problems.Add(
                At(
                    pointer,
                    ProblemCode.DuplicateName,
                    offset,
                    "this name stands twice in one object",
                    decoded,
                    "each name once"
                )
            );
        }
    }

    public const string Surrogate = "the text escapes half of a surrogate pair";

    public const string SurrogateAccepted = "escapes that come in whole pairs";

    private static bool TryDecode(ref Utf8JsonReader reader, out string decoded)
    {
        try
        {
            decoded = reader.GetString()!;
            return true;
        }
        catch (InvalidOperationException)
        {
            // The only cause left after the UTF-8 check; the platform offers no way to ask first.
            decoded = System.Text.Encoding.UTF8.GetString(reader.ValueSpan);
            return false;
        }
    }

    private static SourceKind KindOf(JsonTokenType token) =>
        token switch
        {
            JsonTokenType.StartObject => SourceKind.Object,
            JsonTokenType.StartArray => SourceKind.List,
            JsonTokenType.String => SourceKind.Text,
            JsonTokenType.Number => SourceKind.Number,
            JsonTokenType.True => SourceKind.True,
            JsonTokenType.False => SourceKind.False,
            _ => SourceKind.Null,
        };

    private Problem SyntaxProblem(JsonTokenType last, int at)
    {
        (string what, string found, string accepted) = SyntaxWords.Of(bytes.Span, at, last, holder?.Kind);
        return Stop(ProblemCode.Syntax, at, what, found, accepted);
    }

    private Problem Stop(string code, int offset, string what, string found, string accepted) =>
        At(holder?.Pointer ?? JsonPointer.Root, code, offset, what, found, accepted);

    private Problem At(
        JsonPointer pointer,
        string code,
        int offset,
        string what,
        string found,
        string accepted
    )
    {
        SourcePosition position = problems.HasRoom ? lines.At(offset) : default;
        return new(
            code,
            pointer.ToString(),
            position.Line,
            position.Column,
            what,
            FoundText.Of(found),
            accepted
        );
    }
}

using System.Globalization;

namespace ServiceRules.Formats.Json.Source;

/// <summary>A JSON document with the place of each of its values, so that any later check can point into it.</summary>
public sealed class SourceDocument
{
    private readonly SourceLines lines;

    internal SourceDocument(SourceNode root, SourceLines lines)
    {
        Root = root;
        this.lines = lines;
    }

    public SourceNode Root { get; }

    /// <summary>
    /// Reads the syntax of a document and nothing else. The answer is false when the syntax ends the reading; problems
    /// that leave the syntax whole (a repeated name, half a surrogate pair) come with the document.
    /// </summary>
    public static bool TryRead(
        ReadOnlyMemory<byte> bytes,
        ReadLimits limits,
        [System.Diagnostics.CodeAnalysis.NotNullWhen(true)] out SourceDocument? document,
        out ProblemReport problems
    )
    {
        ProblemList list = new();
        document = SourceReader.Read(bytes, limits, list);
        problems = list.ToReport();
        return document is not null;
    }

    /// <summary>Where a value begins; for a member, where its name begins. A pointer to nothing gives its nearest holder.</summary>
    public SourcePosition PositionOf(JsonPointer pointer)
    {
        SourceNode node = Nearest(pointer);
        return lines.At(node.Name is null ? node.Offset : node.NameOffset);
    }

    /// <summary>A problem at a pointer, for checks made after reading.</summary>
    public Problem ProblemAt(JsonPointer pointer, string code, string what, string accepted)
    {
        SourceNode node = Nearest(pointer);
        SourcePosition position = lines.At(node.Offset);
        return new(code, pointer.ToString(), position.Line, position.Column, what, node.Shown, accepted);
    }

    internal SourcePosition PositionOf(SourceNode node) => lines.At(node.Offset);

    internal SourcePosition PositionOfName(SourceNode node) => lines.At(node.NameOffset);

    private SourceNode Nearest(JsonPointer pointer)
    {
        SourceNode node = Root;
        foreach (string step in pointer.Steps())
        {
            SourceNode? next = node.Member(step);
            if (
                node.Kind == SourceKind.List
                && int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out int index)
                && index < node.Children.Count
            )
            {
                next = node.Children[index];
            }

            if (next is null)
            {
                return node;
            }

            node = next;
        }

        return node;
    }
}

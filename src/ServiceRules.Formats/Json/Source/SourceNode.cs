using System.Globalization;

namespace ServiceRules.Formats.Json.Source;

/// <summary>One value of a document and where it stands. Members are in document order, without repeated names.</summary>
public sealed class SourceNode
{
    private static readonly IReadOnlyList<SourceNode> NoChildren = [];
    private List<SourceNode>? children;

    internal SourceNode(SourceKind kind, int offset, SourceNode? parent, string? name, int nameOffset)
    {
        Kind = kind;
        Offset = offset;
        Parent = parent;
        Name = name;
        NameOffset = nameOffset;
        Index = parent?.children?.Count ?? 0;
    }

    public SourceKind Kind { get; }

    public SourceNode? Parent { get; }

    /// <summary>The member's name when the parent is an object.</summary>
    public string? Name { get; }

    /// <summary>The decoded text of a text, or the digits of a number; empty for other kinds.</summary>
    public string Content { get; internal init; } = "";

    /// <summary>False for a text that is no Unicode text: it escapes half of a surrogate pair.</summary>
    public bool IsWellFormed { get; internal init; } = true;

    public IReadOnlyList<SourceNode> Children => children ?? NoChildren;

    internal int Offset { get; }

    internal int NameOffset { get; }

    private int Index { get; }

    public JsonPointer Pointer =>
        Parent is null ? JsonPointer.Root
        : Name is null ? Parent.Pointer.Item(Index)
        : Parent.Pointer.Member(Name);

    /// <summary>The member of that name, if this is an object that has it.</summary>
    public SourceNode? Member(string name)
    {
        if (Kind != SourceKind.Object || children is null)
        {
            return null;
        }

        foreach (SourceNode child in children)
        {
            if (string.Equals(child.Name, name, StringComparison.Ordinal))
            {
                return child;
            }
        }

        return null;
    }

    /// <summary>What a message shows of this value.</summary>
    internal string Shown =>
        Kind switch
        {
            SourceKind.Object => children is null
                ? "an empty object"
                : string.Create(CultureInfo.InvariantCulture, $"an object with {Children.Count} members"),
            SourceKind.List => children is null
                ? "an empty list"
                : string.Create(CultureInfo.InvariantCulture, $"a list of {Children.Count}"),
            SourceKind.True => "true",
            SourceKind.False => "false",
            SourceKind.Null => "null",
            _ => FoundText.Of(Content),
        };

    internal void Add(SourceNode child) => (children ??= []).Add(child);
}

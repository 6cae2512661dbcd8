namespace ServiceRules.Formats.Json;

/// <summary>The stable names of what can be wrong with a document. Programs may depend on them; sentences may change.</summary>
public static class ProblemCode
{
    public const string Size = "document.size";
    public const string Encoding = "document.encoding";
    public const string Syntax = "document.syntax";
    public const string Depth = "document.depth";
    public const string Values = "document.values";
    public const string Format = "document.format";

    public const string UnknownName = "name.unknown";
    public const string DuplicateName = "name.duplicate";
    public const string MissingName = "name.missing";
    public const string NamePattern = "name.pattern";

    public const string WrongType = "value.type";
    public const string UnknownChoice = "value.choice";
    public const string OutOfRange = "value.range";
    public const string Unreadable = "value.unreadable";
    public const string Contradiction = "value.contradiction";

    public const string TextLength = "text.length";
    public const string TextPattern = "text.pattern";
    public const string TextSurrogate = "text.surrogate";

    public const string ListLength = "list.length";
    public const string ListRepeats = "list.repeats";

    public const string DanglingReference = "reference.dangling";
    public const string DuplicateIdentity = "reference.duplicate";
}

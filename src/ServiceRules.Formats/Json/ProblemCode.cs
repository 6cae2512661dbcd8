namespace ServiceRules.Formats.Json;

/// <summary>The stable names of what can be wrong with a document. Programs may depend on them; sentences may change.</summary>
public static class ProblemCode
{
    /// <summary>A document is larger than any of its kind is.</summary>
    public const string Size = "document.size";

    /// <summary>A document is not in UTF-8.</summary>
    public const string Encoding = "document.encoding";

    /// <summary>A text is no JSON.</summary>
    public const string Syntax = "document.syntax";

    /// <summary>Objects and lists stand too deep within one another.</summary>
    public const string Depth = "document.depth";

    /// <summary>A document holds more values than any of its kind does.</summary>
    public const string Values = "document.values";

    /// <summary>A document is of another kind or version, or does not say which.</summary>
    public const string Format = "document.format";

    /// <summary>A member is named that is not known there.</summary>
    public const string UnknownName = "name.unknown";

    /// <summary>A member stands twice.</summary>
    public const string DuplicateName = "name.duplicate";

    /// <summary>A member is missing that must be there.</summary>
    public const string MissingName = "name.missing";

    /// <summary>A name that its author chose has another form.</summary>
    public const string NamePattern = "name.pattern";

    /// <summary>A value is of another type than is asked for.</summary>
    public const string WrongType = "value.type";

    /// <summary>A word does not belong to its closed vocabulary.</summary>
    public const string UnknownChoice = "value.choice";

    /// <summary>A number lies outside its range.</summary>
    public const string OutOfRange = "value.range";

    /// <summary>A text of the right form says nothing: no such day, no such length.</summary>
    public const string Unreadable = "value.unreadable";

    /// <summary>Two members contradict each other.</summary>
    public const string Contradiction = "value.contradiction";

    /// <summary>A text is empty or too long.</summary>
    public const string TextLength = "text.length";

    /// <summary>A text has another form than is asked for.</summary>
    public const string TextPattern = "text.pattern";

    /// <summary>A text holds half a character.</summary>
    public const string TextSurrogate = "text.surrogate";

    /// <summary>A list is too short or too long.</summary>
    public const string ListLength = "list.length";

    /// <summary>A list names something twice.</summary>
    public const string ListRepeats = "list.repeats";

    /// <summary>Something is named that the document does not list.</summary>
    public const string DanglingReference = "reference.dangling";

    /// <summary>Two things of a document have one identity.</summary>
    public const string DuplicateIdentity = "reference.duplicate";
}

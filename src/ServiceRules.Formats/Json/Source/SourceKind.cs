namespace ServiceRules.Formats.Json.Source;

/// <summary>The kinds of JSON value.</summary>
public enum SourceKind
{
    Object,
    List,
    Text,
    Number,
    True,
    False,
    Null,
}

namespace ServiceRules.Formats.Json.Source;

/// <summary>A place in a text as an editor shows it: both counted from 1, the column in characters.</summary>
public readonly record struct SourcePosition(int Line, int Column);

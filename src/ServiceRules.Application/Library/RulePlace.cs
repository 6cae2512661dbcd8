namespace ServiceRules.Application.Library;

/// <summary>Where something stands in a folder of rules.</summary>
/// <param name="File">The file, relative to the folder.</param>
/// <param name="Pointer">Where in the file, as a JSON pointer.</param>
/// <param name="Line">The line, counted from 1.</param>
/// <param name="Column">The column, counted from 1.</param>
public sealed record RulePlace(string File, string Pointer, int Line, int Column);

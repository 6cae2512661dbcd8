namespace ServiceRules.Rules.Checking;

/// <summary>A part of a folder of rules, with where it stands.</summary>
/// <param name="Value">The part.</param>
/// <param name="File">The file, relative to the folder.</param>
/// <param name="Pointer">Where in the file, as a JSON pointer.</param>
public sealed record Placed<T>(T Value, string File, string Pointer)
    where T : notnull;

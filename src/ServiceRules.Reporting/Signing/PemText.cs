namespace ServiceRules.Reporting.Signing;

/// <summary>The text of a PEM file, and how to name the file when something in it is wrong.</summary>
public sealed record PemText(string Name, string Content);

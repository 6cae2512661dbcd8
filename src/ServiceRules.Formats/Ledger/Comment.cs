namespace ServiceRules.Formats.Ledger;

/// <summary>What somebody who oversees says of a record.</summary>
public sealed record Comment(string Record, string Text);

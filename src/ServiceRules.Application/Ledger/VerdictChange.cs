namespace ServiceRules.Application.Ledger;

/// <summary>A disposition or a finding that another version of a record gets.</summary>
/// <param name="Subject">`job`, `set` or `unit/` and the unit.</param>
/// <param name="Rule">The rule; null for a disposition.</param>
/// <param name="Old">As it was, in one word; null when there was none.</param>
/// <param name="New">As it is; null when there is none.</param>
/// <param name="Statement">The new finding in a sentence, else the old one.</param>
public sealed record VerdictChange(string Subject, string? Rule, string? Old, string? New, string? Statement);

namespace ServiceRules.Application.Reports;

/// <summary>That the record of a report amends another version of it.</summary>
/// <param name="Corrects">Place of the entry that it amends.</param>
/// <param name="Reason">Why, as filed.</param>
public sealed record FiledAmendment(long Corrects, string Reason);

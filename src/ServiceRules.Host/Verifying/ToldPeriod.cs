namespace ServiceRules.Host.Verifying;

/// <summary>The period of a report.</summary>
/// <param name="From">Its first day.</param>
/// <param name="Until">Its last day.</param>
/// <param name="Sites">The sites whose jobs it tells.</param>
internal sealed record ToldPeriod(DateOnly From, DateOnly Until, IReadOnlyList<string> Sites);

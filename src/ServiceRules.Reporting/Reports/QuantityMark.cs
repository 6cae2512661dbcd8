using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports;

/// <summary>How one quantity of a unit stands.</summary>
/// <param name="Verdict">The worst of all that was found about it.</param>
/// <param name="Name">The quantity, or what was worked out of it.</param>
/// <param name="Told">What is known at its worst place, or what was seen.</param>
internal sealed record QuantityMark(Verdict Verdict, string Name, string Told);

using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>A finding on the lanes: the list below them tells it by its letter.</summary>
/// <param name="Letter">Its letter.</param>
/// <param name="Event">The event it is drawn at.</param>
/// <param name="Verdict">Not shown: a filled square. Not proven: an open one.</param>
internal sealed record LaneMark(string Letter, int Event, Verdict Verdict);

using ServiceRules.Application.SafeWork;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>A duty that is not shown or not proven, with the letter by which lanes, list and matrix name it.</summary>
internal sealed record MarkedFinding(string Letter, SafeWorkFinding Told);

using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>A cause and the letters of the duties that it touches.</summary>
internal sealed record MarkedCause(Cause Cause, ImmutableArray<MarkedFinding> Marked)
{
    /// <summary>As a reader names it: A, or A to D.</summary>
    public string Letters =>
        Marked.Length == 1 ? Marked[0].Letter : $"{Marked[0].Letter} to {Marked[^1].Letter}";
}

using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>How one person stood to one energy source.</summary>
/// <param name="Effective">The source, and how the job came to reckon with it.</param>
/// <param name="Reading">When the source was off, held, released and proven dead.</param>
/// <param name="Control">When this person alone could let it be switched on again; null: nothing to switch off.</param>
/// <param name="Protected">When the person was protected from it.</param>
internal sealed record ProtectedSource(
    EffectiveSource Effective,
    SourceReading Reading,
    IntervalSet? Control,
    IntervalSet Protected
);

using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>One thing that a timeline does not show, or shows to be wrong.</summary>
/// <param name="Verdict">Not met, or unproven.</param>
/// <param name="Reason">Why, in one closed word.</param>
/// <param name="Text">A whole sentence.</param>
/// <param name="Entries">The entries it rests on.</param>
/// <param name="Act">What to do about it.</param>
/// <param name="Beside">Pointers of what it rests on beside the timeline; absent: nothing.</param>
internal sealed record TimelineFault(
    Verdict Verdict,
    FindingReason Reason,
    string Text,
    ImmutableArray<OrderedEvent> Entries,
    string Act,
    ImmutableArray<string>? Beside = null
);

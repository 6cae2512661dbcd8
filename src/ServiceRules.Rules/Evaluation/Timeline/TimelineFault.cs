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
/// <param name="StillToDo">On a job that goes on, what is still to be done; null: nothing that a step does.</param>
internal sealed record TimelineFault(
    Verdict Verdict,
    FindingReason Reason,
    string Text,
    ImmutableArray<OrderedEvent> Entries,
    string Act,
    ImmutableArray<string>? Beside = null,
    string? StillToDo = null
)
{
    private const string BeforeTouching = "Do it before touching the unit";

    /// <summary>A step that a job that goes on does not show yet, and that can still be done in time.</summary>
    /// <param name="what">The step, as an object of <c>not yet shown</c>.</param>
    /// <param name="act">What to do about it.</param>
    /// <param name="entries">The entries it rests on.</param>
    /// <param name="by">When it is due, as a sentence of its own without the full stop; null: before touching the unit.</param>
    /// <param name="of">Of whom or since when it is asked, before the colon.</param>
    public static TimelineFault NotYet(
        string what,
        string act,
        ImmutableArray<OrderedEvent> entries = default,
        string? by = BeforeTouching,
        string? of = null
    ) =>
        new(
            Verdict.Unproven,
            FindingReason.InProgress,
            $"Not yet shown{(of is null ? string.Empty : " " + of)}: {what}.{(by is null ? string.Empty : $" {by}.")}",
            entries.IsDefault ? [] : entries,
            act,
            StillToDo: of is null ? what : $"{of}: {what}"
        );
}

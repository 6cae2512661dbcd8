using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>One step that is asked for one source.</summary>
/// <param name="Source">The source.</param>
/// <param name="Shown">The entries that do, in judged order.</param>
/// <param name="Late">An entry that would have done, had it stood before the work; or null.</param>
/// <param name="Why">What stands instead, in brackets and after a blank; empty: nothing.</param>
/// <param name="Instead">The entries that stand instead.</param>
/// <param name="IsUntold">What stands instead may do: the record cannot tell.</param>
/// <param name="Act">What to do about it, where that is not to say what came first; or null.</param>
internal sealed record SourceStep(
    EnergySource Source,
    ImmutableArray<OrderedEvent> Shown,
    OrderedEvent? Late,
    string Why,
    ImmutableArray<OrderedEvent> Instead,
    bool IsUntold = false,
    string? Act = null
)
{
    /// <summary>A step that any of some entries does, where it stands before the work.</summary>
    public static SourceStep Of(LeadUp leadUp, EnergySource source, IEnumerable<OrderedEvent> entries)
    {
        var all = entries.ToImmutableArray();
        return new(source, [.. all.Where(leadUp.Contains)], leadUp.FirstAfter(all), string.Empty, []);
    }

    /// <summary>Judges the same step for several sources; alike ones are told together.</summary>
    /// <param name="leadUp">What leads up to the work.</param>
    /// <param name="steps">The step, source by source.</param>
    /// <param name="done">After <c>the record shows</c>, for example <c>the isolator turned off</c>.</param>
    public static CheckOutcome Judge(LeadUp leadUp, ImmutableArray<SourceStep> steps, string done)
    {
        var weakened = leadUp.Duty.Reading.Weakened;
        var restsOn = steps
            .Where(step => !step.Shown.IsEmpty)
            .Select(step =>
                step.Shown.FirstOrDefault(entry => !weakened.Contains(entry.Pointer())) ?? step.Shown[0]
            )
            .Distinct()
            .ToList();
        var faults =
            from step in steps
            where step.Shown.IsEmpty
            group step by (step.Late, step.Why, step.IsUntold, step.Act) into alike
            let missing = LeadUpOutcome.Missing(
                leadUp,
                done + For(alike.Select(step => step.Source)),
                alike.Key.Late,
                alike.Key.Why,
                [.. alike.SelectMany(step => step.Instead).Distinct()]
            )
            let told = alike.Key.IsUntold ? LeadUpOutcome.Untold(missing) : missing
            select alike.Key.Act is { } act ? told with { Act = act } : told;
        return LeadUpOutcome.Of(leadUp, [.. faults], done + For(steps.Select(step => step.Source)), restsOn);
    }

    private static string For(IEnumerable<EnergySource> sources) => $" for {TimelineWords.Named(sources)}";
}

using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>A task that cannot be done on a dead machine, approved with the measures that stand in for isolation.</summary>
/// <param name="Task">Which task.</param>
/// <param name="ApprovedBy">Who approved it; absent: nobody did.</param>
/// <param name="Measures">What must be in place before the machine is started.</param>
/// <param name="Stop">Which stop makes the adjuster touchable, in words.</param>
/// <param name="AdjusterControl">
/// Which control allows the adjuster to be turned from outside the danger zone; absent: never while the machine runs.
/// </param>
/// <param name="LongestMinutes">Longest run at a time; absent: not stated.</param>
public sealed record EnergisedTask(
    ServiceTask Task,
    Id<Participant>? ApprovedBy,
    ImmutableArray<ProtectiveMeasure> Measures,
    string Stop,
    string? AdjusterControl,
    int? LongestMinutes
)
{
    /// <summary>Who may run the machine for it; empty: any authorised person.</summary>
    public ImmutableArray<Id<Participant>> Operators { get; init; } = [];
}

using System.Collections.Concurrent;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The plans for the machine of one frame, each solved when it is first asked for: every rule on a quantity of every unit asks
/// for the same one, and a frame never changes.
/// </summary>
internal sealed class MachinePlans(JobFrame? frame)
{
    private readonly ConcurrentDictionary<(MeasuredQuantity Quantity, int? Unit), MachineMatch?> plans =
        new();

    /// <summary>Whether these are the plans of that very frame, and not of one that it was copied from.</summary>
    public bool AreOf(JobFrame other) => ReferenceEquals(frame, other);

    /// <summary>The plan for a quantity, of the whole machine or of one unit.</summary>
    public MachineMatch? Of(MeasuredQuantity quantity, int? unit, Func<MachineMatch?> solve) =>
        plans.GetOrAdd((quantity, unit), _ => solve());

    /// <summary>What was already solved makes no difference between frames.</summary>
    public override bool Equals(object? obj) => obj is MachinePlans;

    /// <inheritdoc/>
    public override int GetHashCode() => 0;
}

using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation;

/// <summary>What is known of one unit.</summary>
public sealed record UnitFrame
{
    /// <summary>The unit as recorded.</summary>
    public required UnitWork Work { get; init; }

    /// <summary>Its index in the record.</summary>
    public required int Index { get; init; }

    /// <summary>The sheet that it is held to.</summary>
    public required LimitSheet Sheet { get; init; }

    /// <summary>Its own tasks, or the job's.</summary>
    public required ImmutableArray<ServiceTask> Tasks { get; init; }

    /// <summary>School in force for its sheet on the day, or null.</summary>
    public required ContactSchool? School { get; init; }

    /// <summary>Height (and other) targets in force for it on the day, the job card's own request winning where it is taken.</summary>
    public required ImmutableArray<AreaTarget> Targets { get; init; }

    /// <summary>What job cards ask for that the order does not, taken or not, in their order.</summary>
    public ImmutableArray<CardAsked> Cards { get; init; } = [];

    /// <summary>The speeds in force for it on the day, or null.</summary>
    public AreaMowing? Mowing { get; init; }

    /// <summary>What is known, by quantity; a quantity never read is absent.</summary>
    public required ImmutableArray<QuantityKnown> Known { get; init; }

    /// <summary>
    /// Every length that was read, by the pointer of its entry, less the error that its gauge's zero check states.
    /// </summary>
    public ImmutableDictionary<string, Length> LengthsTold { get; init; } =
        ImmutableDictionary<string, Length>.Empty;

    /// <summary>What the bench log tells of the steps really obtained, by quantity and place, in the order of the work.</summary>
    public ImmutableArray<StepsTried> StepsTried { get; init; } = [];

    /// <summary>What the bench log tells of turns noted as distances, by quantity and place, in the order of the work.</summary>
    public ImmutableArray<DistanceTried> DistancesTried { get; init; } = [];

    /// <summary>What steps shift, where the bench log tells that better than the sheet.</summary>
    public ImmutableArray<ShiftLearned> ShiftsLearned { get; init; } = [];

    /// <summary>What is known of a quantity, or null.</summary>
    public QuantityKnown? Of(MeasuredQuantity quantity)
    {
        foreach (var known in Known)
        {
            if (known.Quantity == quantity)
            {
                return known;
            }
        }

        return null;
    }
}

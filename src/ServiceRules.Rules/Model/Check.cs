using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Model;

/// <summary>One typed check with its parameters. A closed family: new kinds are code with tests, new rules are data.</summary>
public abstract record Check
{
    private Check() { }

    /// <summary>A quantity, as left, against the limits of the sheet (or about the target of the setting order).</summary>
    /// <param name="Quantity">The quantity.</param>
    /// <param name="Against">Where the zone comes from.</param>
    /// <param name="Where">At which places it must hold.</param>
    public sealed record LimitOnQuantity(MeasuredQuantity Quantity, LimitSource Against, CheckedPlaces Where)
        : Check;

    /// <summary>The procedure of the school in force was followed at every station, and nothing was turned after.</summary>
    public sealed record ProceduralLimit(MeasuredQuantity Quantity) : Check;

    /// <summary>
    /// Contact, heard and felt as left, is what the school in force asks: none over a gap, light over the full width
    /// otherwise; heavy contact is a fault in both. Less than <see cref="ProceduralLimit"/>: no feeler is asked for, since a
    /// daily look is not a setting.
    /// </summary>
    public sealed record Contact(MeasuredQuantity Quantity) : Check;

    /// <summary>Spread of a quantity, as left.</summary>
    public sealed record Spread(MeasuredQuantity Quantity, SpreadAcross Across) : Check;

    /// <summary>Range of the distances from the datum line, over the width.</summary>
    public sealed record Parallelism(MeasuredQuantity Quantity, DatumMethod Datum) : Check;

    /// <summary>Taper or barrel of the reel, from its diameters as left.</summary>
    public sealed record ReelForm(ReelFormOf Of) : Check;

    /// <summary>Twist of the two rollers against one another, from the gaps under their corners on the plate, as left.</summary>
    public sealed record Twist : Check;

    /// <summary>One quantity against another, as left.</summary>
    /// <param name="Quantity">The quantity judged.</param>
    /// <param name="How">How it must stand.</param>
    /// <param name="Other">To which.</param>
    /// <param name="Allowance">
    /// For <see cref="QuantityRelation.EqualTo"/>: allowed either way. For <see cref="QuantityRelation.NotAbove"/>: the most that
    /// it may stand above.
    /// </param>
    public sealed record Relation(
        MeasuredQuantity Quantity,
        QuantityRelation How,
        MeasuredQuantity Other,
        DualPrint Allowance
    ) : Check;

    /// <summary>
    /// The blades clip the turf at least as often as its height asks: clip spacing, from ground speed, turns of the reel and
    /// blades, is at most so many times the height of cut, as left.
    /// </summary>
    /// <param name="Ratio">Largest permitted spacing as a multiple of the height.</param>
    public sealed record Clip(decimal Ratio) : Check;

    /// <summary>No wave was measured on the turf; where one was, which part printed it.</summary>
    public sealed record WavePitch : Check;

    /// <summary>Adjustments of the unit come in this order; kinds not listed may stand anywhere.</summary>
    public sealed record OrderOfWork(ImmutableArray<AdjusterKind> Order) : Check;

    /// <summary>An event stands in the timeline for each that needs one, before or after hands-on work.</summary>
    /// <param name="Events">Any one of these kinds will do.</param>
    /// <param name="Per">For each of what.</param>
    /// <param name="When">Where it must stand.</param>
    /// <param name="Needs">Only where the machine has this control or kind of source; null: always.</param>
    public sealed record RequiredEvent(
        ImmutableArray<TimelineEventKind> Events,
        RequiredPer Per,
        RequiredWhen When,
        MachineNeed? Needs
    ) : Check
    {
        /// <summary>What is asked of whoever made it, besides those with hands in; null: nothing.</summary>
        public PersonAsked? By { get; init; }
    }

    /// <summary>Events stand in this order, where they are present, before each person's work.</summary>
    public sealed record OrderOfEvents(ImmutableArray<TimelineEventKind> Order) : Check;

    /// <summary>Everyone works only inside their own protected interval.</summary>
    public sealed record Protection : Check;

    /// <summary>A duty of controlling energy was met.</summary>
    /// <param name="Of">Which duty.</param>
    public sealed record EnergyControl(EnergyDuty Of) : Check;

    /// <summary>Something has not run out on the day of the job.</summary>
    public sealed record Recency(RecencyOf Of) : Check;

    /// <summary>The record's own times and entries are credible.</summary>
    public sealed record Credibility(CredibilityOf Of) : Check;

    /// <summary>Nothing that disturbs the quantity was turned after its last reading.</summary>
    public sealed record Freshness(MeasuredQuantity Quantity) : Check;

    /// <summary>The steps that were turned moved the quantity by what the sheet says of a step.</summary>
    public sealed record StepObtained(MeasuredQuantity Quantity) : Check;

    /// <summary>A reading of the quantity is there: found, left, at both stations.</summary>
    public sealed record Presence(MeasuredQuantity Quantity, RequiredPhase Phase, RequiredPlaces Places)
        : Check;

    /// <summary>A condition judged by eye or hand is sound, as left.</summary>
    public sealed record SoundCondition(MeasuredQuantity Quantity) : Check;

    /// <summary>A part of the record is there: sign-off, follow-up, second person, closed defects.</summary>
    public sealed record RecordPart(RequiredPart Part) : Check
    {
        /// <summary>Of a sign-off, what is asked of whoever signs, besides those with hands in; null: nothing.</summary>
        public PersonAsked? By { get; init; }
    }
}

using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Vocabulary;

/// <summary>The closed vocabularies that more than one document uses.</summary>
public static class Choices
{
    public static JsonShape<MeasuredQuantity> Quantity { get; } =
        Shape.Choice<MeasuredQuantity>("What can be read on a unit.");

    public static JsonShape<AdjusterKind> Adjuster { get; } =
        Shape.Choice<AdjusterKind>("What can be turned or moved on a unit.");

    public static JsonShape<Attachment> Attachment { get; } =
        Shape.Choice<Attachment>("What is fitted to a unit beyond reel, bedknife and rollers.");

    public static JsonShape<PersonAsked> PersonAsked { get; } =
        Shape.Choice<PersonAsked>(
            "What the register must show of somebody without hands in; of whoever has hands in another rule asks."
        );

    public static JsonShape<ServiceTask> Task { get; } = Shape.Choice<ServiceTask>("What a visit is for.");

    public static JsonShape<WorkPlace> Place { get; } =
        Shape.Choice<WorkPlace>("Where the units were while they were worked on.");

    public static JsonShape<UnitSystem> UnitSystem { get; } = Shape.Choice<UnitSystem>("A system of units.");

    public static JsonShape<Side> Side { get; } =
        Shape.Choice<Side>("A side of the unit, as seen from the operator's seat looking forward.");

    public static JsonShape<Condition> Condition { get; } =
        Shape.Choice<Condition>("A condition judged by eye or hand.");

    public static JsonShape<ContactSchool> School { get; } =
        Shape.Choice<ContactSchool>("The two schools of setting reel to bedknife.");

    public static JsonShape<BedknifeMounting> Bedknife { get; } =
        Shape.Choice<BedknifeMounting>("How the clearance is set.");

    public static JsonShape<TimelineEventKind> Event { get; } =
        Shape.SnakeChoice<TimelineEventKind>("What a timeline entry says.");

    public static JsonShape<ProtectiveMeasure> Measure { get; } =
        Shape.Choice<ProtectiveMeasure>(
            "A measure that stands in for isolation while a task needs the machine alive."
        );

    public static JsonShape<Severity> Severity { get; } = Shape.Choice<Severity>("How serious a breach is.");

    /// <summary>The word with which a timeline event is written.</summary>
    public static string WordOf(TimelineEventKind kind) => Shape.WordOf(kind.ToString(), '_');

    /// <summary>The word with which a quantity is written.</summary>
    public static string WordOf(MeasuredQuantity quantity) => Shape.WordOf(quantity.ToString(), '-');
}

using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Records;

/// <summary>The things that a record lists once and refers to by name.</summary>
internal static class RecordNames
{
    public static JsonShape<Id<Participant>> NewPerson { get; } = Terms.NewId<Participant>("person");

    public static JsonShape<Id<Participant>> KnownPerson { get; } = Terms.KnownId<Participant>("person");

    public static JsonShape<Id<Instrument>> NewInstrument { get; } = Terms.NewId<Instrument>("instrument");

    public static JsonShape<Id<Instrument>> KnownInstrument { get; } =
        Terms.KnownId<Instrument>("instrument");

    public static JsonShape<Id<UnitWork>> NewUnit { get; } = Terms.NewId<UnitWork>("unit");

    public static JsonShape<Id<UnitWork>> KnownUnit { get; } = Terms.KnownId<UnitWork>("unit");
}

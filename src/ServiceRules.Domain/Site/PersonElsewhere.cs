using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>A person with hands in another machine.</summary>
/// <param name="Person">Who.</param>
/// <param name="Machine">At which machine.</param>
/// <param name="From">Since when.</param>
/// <param name="Until">Until when; absent: the other record shows no end.</param>
public sealed record PersonElsewhere(
    Id<Participant> Person,
    Id<MachineVisit> Machine,
    RecordedTime From,
    RecordedTime? Until
) : Elsewhere(Machine, From, Until);

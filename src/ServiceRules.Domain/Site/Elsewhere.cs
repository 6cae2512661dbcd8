using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>Something or somebody at another machine, as other records tell. A closed family.</summary>
/// <param name="Machine">At which machine.</param>
/// <param name="From">Since when.</param>
/// <param name="Until">Until when; absent: the other record shows no end.</param>
public abstract record Elsewhere(Id<MachineVisit> Machine, RecordedTime From, RecordedTime? Until)
{
    /// <summary>The record that tells it; absent: a register, or not stated.</summary>
    public Id<ServiceRecord>? Record { get; init; }
}

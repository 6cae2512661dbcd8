using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Site;

/// <summary>A lock or tag that hung on another machine.</summary>
/// <param name="Lock">Which.</param>
/// <param name="Machine">At which machine.</param>
/// <param name="From">Since when.</param>
/// <param name="Until">Until when; absent: the other record shows it still there.</param>
public sealed record LockElsewhere(
    Id<LockDevice> Lock,
    Id<MachineVisit> Machine,
    RecordedTime From,
    RecordedTime? Until
) : Elsewhere(Machine, From, Until);

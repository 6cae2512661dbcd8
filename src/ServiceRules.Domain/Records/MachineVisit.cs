using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>The machine as it stood at the visit.</summary>
/// <param name="Id">Which machine; its written procedure is found by this.</param>
/// <param name="Area">The turf area it serves, as the setting order names it.</param>
/// <param name="Hours">Hour meter.</param>
/// <param name="Tested">How it went on turf, where it was tried.</param>
public sealed record MachineVisit(
    Id<MachineVisit> Id,
    string? Area,
    OperatingHours? Hours,
    MowingTest? Tested = null
);

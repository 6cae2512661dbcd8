namespace ServiceRules.Domain.Timeline;

/// <summary>The eight answers without which a machine needs a written procedure; each must be yes.</summary>
/// <param name="NoStoredEnergy">No energy stays stored or can build up again.</param>
/// <param name="OneSource">There is one source, easily told and isolated.</param>
/// <param name="FullyDeenergised">Isolating it leaves the machine entirely dead.</param>
/// <param name="LockedForWork">It is isolated and locked while work goes on.</param>
/// <param name="OneLock">One lock is enough.</param>
/// <param name="ExclusiveControl">That lock is under the control of whoever works alone.</param>
/// <param name="NoHazardToOthers">The work endangers nobody else.</param>
/// <param name="NoPastAccident">No accident is known with this machine by unexpected energy.</param>
public sealed record UndocumentedFacts(
    bool NoStoredEnergy,
    bool OneSource,
    bool FullyDeenergised,
    bool LockedForWork,
    bool OneLock,
    bool ExclusiveControl,
    bool NoHazardToOthers,
    bool NoPastAccident
)
{
    /// <summary>Whether every answer is yes.</summary>
    public bool AreAllTrue =>
        NoStoredEnergy
        && OneSource
        && FullyDeenergised
        && LockedForWork
        && OneLock
        && ExclusiveControl
        && NoHazardToOthers
        && NoPastAccident;
}

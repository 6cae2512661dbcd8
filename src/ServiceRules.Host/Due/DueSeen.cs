using ServiceRules.Application.Due;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Due;

/// <summary>What falls due, as far as whoever asks may see it.</summary>
internal static class DueSeen
{
    /// <summary>
    /// Whoever sees but what names them sees what falls due of themselves and of the gauges and procedures that all work with: not
    /// who else's training runs out, and nothing that is reckoned from records of others.
    /// </summary>
    public static DueThing? By(Caller caller, DueThing thing) =>
        !caller.IsLimited ? thing
        : thing.Person is { } person ? (person == caller.Person ? thing : null)
        : thing.Kind is DueKind.Calibration ? thing with { Record = null }
        : thing.Kind is DueKind.Inspection or DueKind.InspectionFinding ? thing
        : null;
}

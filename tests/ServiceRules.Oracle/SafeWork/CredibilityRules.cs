using System.Collections.Frozen;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// Which rule of the base pack answers each row about credibility. They are no law, so no pack of a jurisdiction cites
/// them.
/// </summary>
public static class CredibilityRules
{
    /// <summary>Row to rule.</summary>
    public static FrozenDictionary<string, string> ByRow { get; } =
        new Dictionary<string, string>(StringComparer.Ordinal)
        {
            ["cred.burst"] = "no-bursts",
            ["cred.backfilled"] = "not-back-filled",
            ["cred.clock-backward"] = "clock-forward",
            ["cred.future-stamp"] = "no-future-stamps",
            ["cred.conflicting-duplicate"] = "no-conflicting-duplicates",
            ["cred.lock-two-places"] = "lock-in-one-place",
            ["cred.actor-elsewhere"] = "person-in-one-place",
            ["cred.no-offset"] = "times-with-offset",
        }.ToFrozenDictionary(StringComparer.Ordinal);
}

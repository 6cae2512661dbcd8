using System.Collections.Frozen;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Every duty of safe work by its entry: the only place in which a duty is told apart from another.</summary>
public static class DutyTable
{
    // A duty in both tables fails here.
    private static readonly FrozenDictionary<EnergyDuty, DutyEntry> All = TimelineDuties
        .Table.Concat(RegisterDuties.Table)
        .ToDictionary(entry => entry.Key, entry => entry.Value)
        .ToFrozenDictionary();

    /// <summary>What the program knows of a duty.</summary>
    public static DutyEntry Of(EnergyDuty duty) => All[duty];
}

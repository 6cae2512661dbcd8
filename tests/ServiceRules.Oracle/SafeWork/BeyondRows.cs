using System.Collections.Frozen;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>What is asked beyond the table, by the rule of the base pack that asks it.</summary>
internal static class BeyondRows
{
    /// <summary>The rules, each with what it says of a story.</summary>
    public static FrozenDictionary<string, Func<Story, Possible>> All { get; } =
        new Dictionary<string, Func<Story, Possible>>(StringComparer.Ordinal)
        {
            ["energised-by-authorised"] = RunRows.ByAuthorised,
            ["isolation-by-authorised"] = WhereSwitchedOff(ActRows.IsolatedByAuthorised),
            ["shut-down-after-run"] = WhereSwitchedOff(RunRows.ShutDownAgain),
            ["energised-task-approved"] = RunRows.Approved,
            ["energised-measures-first"] = RunRows.MeasuresFirst,
            ["energised-run-length"] = RunRows.RunLength,
            ["source-added-controlled"] = WhereSwitchedOff(RunRows.AddedControlled),
            ["drive-disengaged"] = Step(
                s => s.InForce?.Controls.ReelDrive,
                TimelineEventKind.DriveDisengaged
            ),
            ["units-lowered"] = Step(
                s => s.InForce?.Controls.LoweringUnits,
                TimelineEventKind.UnitsLowered,
                TimelineEventKind.UnitSupported
            ),
            ["brake-set"] = Step(s => s.InForce?.Controls.ParkingBrake, TimelineEventKind.ParkingBrakeSet),
            ["key-kept"] = s =>
                ActRows.KeyKept(
                    s,
                    Step(story => story.InForce?.Controls.Key, TimelineEventKind.KeyRemoved)(s)
                ),
            ["seen-at-rest"] = Step(_ => true, TimelineEventKind.SeenAtRest),
            ["work-protected"] = ProtectionRow.Judge,
            ["adjuster-untouched-while-running"] = TouchRows.AdjusterUntouched,
            ["people-authorised"] = TouchRows.PeopleAuthorised,
            ["guards-refitted"] = WhereSwitchedOff(ReleaseRows.GuardsBack),
        }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>A doubt that takes nothing from what rests on it.</summary>
    public static FrozenDictionary<string, Func<Story, Possible>> Told { get; } =
        new Dictionary<string, Func<Story, Possible>>(StringComparer.Ordinal)
        {
            ["bench-times-agree"] = TouchRows.TimesAgree,
        }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>The doubts beyond the table.</summary>
    public static FrozenDictionary<string, Func<Story, Possible>> Doubts { get; } =
        new Dictionary<string, Func<Story, Possible>>(StringComparer.Ordinal)
        {
            ["locks-on-and-off-in-turn"] = HistoryRows.InTurn,
            ["not-started-while-held-off"] = HistoryRows.Started,
            ["rest-seen-in-time"] = ActRows.AtRestInTime,
        }.ToFrozenDictionary(StringComparer.Ordinal);

    // The trade's own steps stand beside isolation: only minor servicing that holds lifts them.
    private static Func<Story, Possible> Step(Func<Story, bool?> isAsked, params TimelineEventKind[] kinds) =>
        WhereSwitchedOff(story =>
            isAsked(story) is not { } asked ? Possible.Unproven
            : story.StrayStops.Any() ? RunRows.Again(story, kinds, asked) | Possible.NeverMet
            : RunRows.Again(story, kinds, asked)
        );

    private static Func<Story, Possible> WhereSwitchedOff(Func<Story, Possible> judge) =>
        story =>
            story.Place == WorkPlace.OnMachine || story.Isolatable.Any()
                ? judge(story)
                : Possible.NotApplicable;
}

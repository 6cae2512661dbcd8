using System.Collections.Frozen;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// A deliberately naive evaluator of safe work, written from the rows of tests/reference/safety/lockout-clauses.json
/// alone. Where a row is silent it leaves more than one verdict possible instead of guessing; rows for a person to
/// decide are left to a person. Unproven covers evidence that is not credible; a flagged row about credibility is
/// unproven as well.
/// </summary>
public static class SafeWorkOpinion
{
    private static readonly FrozenDictionary<string, Func<Story, Possible>> Rows = new Dictionary<
        string,
        Func<Story, Possible>
    >(StringComparer.Ordinal)
    {
        ["147.a.2.ii.note"] = ScopeRows.MinorServicing,
        ["147.a.2.iii.A"] = ScopeRows.CordAndPlug,
        ["147.b.eid"] = SequenceRows.IsolatingDevice,
        ["147.c.1"] = SequenceRows.Isolated,
        ["147.c.2.ii"] = DeviceRows.LockedWhereItFits,
        ["147.c.4.i"] = ProgrammeRows.Written,
        ["147.c.4.i.note"] = ScopeRows.Undocumented,
        ["147.c.4.ii"] = ProgrammeRows.CoversSources,
        ["147.c.5.ii"] = DeviceRows.OnlyForLockout,
        ["147.c.5.ii.B"] = DeviceRows.OfSiteStyle,
        ["147.c.5.ii.D"] = DeviceRows.ShowsOwner,
        ["147.c.5.iii"] = DeviceRows.TagWarns,
        ["147.c.6.i"] = ProgrammeRows.InspectedWithinTheYear,
        ["147.c.6.i.A"] = ProgrammeRows.InspectorIndependent,
        ["147.c.6.i.B"] = ProgrammeRows.FindingsClosed,
        ["147.c.6.i.C"] = ProgrammeRows.ReviewedWithEach,
        ["147.c.6.i.D"] = ProgrammeRows.TagReview,
        ["147.c.6.ii"] = ProgrammeRows.Certified,
        ["147.c.7.i.A"] = TrainingRows.InEnergies,
        ["147.c.7.i.B"] = TrainingRows.AffectedInstructed,
        ["147.c.7.ii"] = DeviceRows.TaggersTrained,
        ["147.c.7.iii.A"] = TrainingRows.AfterChange,
        ["147.c.7.iii.B"] = TrainingRows.AfterFinding,
        ["147.c.7.iv"] = TrainingRows.Certified,
        ["147.c.8"] = DeviceRows.OnlyAuthorised,
        [Belief.Notice] = ReleaseRows.ToldBefore,
        ["147.c.9.after"] = ReleaseRows.ToldAfter,
        [Belief.Order] = OrderRow.Judge,
        ["147.d.1"] = SequenceRows.Reviewed,
        ["147.d.2"] = SequenceRows.ShutDown,
        ["147.d.3"] = SequenceRows.Isolated,
        ["147.d.4.i"] = SequenceRows.DeviceOn,
        ["147.d.4.ii"] = SequenceRows.HoldsOff,
        ["147.d.4.iii"] = DeviceRows.AtLockPoint,
        ["147.d.5.i"] = SequenceRows.Released,
        ["147.d.5.ii"] = BuildUpRow.Judge,
        ["147.d.6"] = SequenceRows.Verified,
        ["147.e.1"] = s => ReleaseRows.Clear(s, TimelineEventKind.AreaInspected),
        ["147.e.2.i"] = s => ReleaseRows.Clear(s, TimelineEventKind.PeopleClearChecked),
        ["147.e.2.ii"] = ReleaseRows.ToldBeforeStart,
        ["147.e.3"] = OwnerRows.ByOwner,
        ["147.e.3.i"] = OwnerRows.Absent,
        ["147.e.3.ii"] = OwnerRows.Sought,
        ["147.e.3.iii"] = OwnerRows.Told,
        ["147.f.1.i"] = s => TestRows.Clear(s, TimelineEventKind.AreaInspected),
        ["147.f.1.ii"] = s => TestRows.Clear(s, TimelineEventKind.PeopleClearChecked),
        ["147.f.1.iii"] = OwnerRows.ByOwnerForTest,
        ["147.f.1.iv"] = TestRows.HandsOff,
        ["147.f.1.v"] = TestRows.Relocked,
        ["147.f.2.i"] = GroupRows.Exchanged,
        ["147.f.2.ii"] = OwnerRows.OutsideDeviceLeftAlone,
        ["147.f.3.i"] = GroupRows.OwnDevice,
        ["147.f.3.ii.A"] = GroupRows.PrimaryNamed,
        ["147.f.3.ii.B"] = GroupRows.Accounted,
        ["147.f.3.ii.C"] = GroupRows.CoordinatorNamed,
        ["147.f.3.ii.D"] = GroupRows.OwnDevice,
        ["147.f.4"] = GroupRows.HandedOver,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    private static readonly FrozenDictionary<string, Func<Story, Possible>> Credibility = new Dictionary<
        string,
        Func<Story, Possible>
    >(StringComparer.Ordinal)
    {
        ["cred.burst"] = CredibilityRows.Burst,
        ["cred.backfilled"] = CredibilityRows.BackFilled,
        ["cred.clock-backward"] = CredibilityRows.ClockBackward,
        ["cred.future-stamp"] = CredibilityRows.FutureStamp,
        ["cred.conflicting-duplicate"] = CredibilityRows.ConflictingDuplicate,
        ["cred.lock-two-places"] = CredibilityRows.LockTwoPlaces,
        ["cred.actor-elsewhere"] = CredibilityRows.ActorElsewhere,
        ["cred.no-offset"] = CredibilityRows.NoOffset,
    }.ToFrozenDictionary(StringComparer.Ordinal);

    private static readonly string[] AboutAdditions =
    [
        "147.a.2.iii.A",
        "147.c.4.i.note",
        "147.f.1.v",
        "147.f.3.i",
        "147.f.3.ii.D",
        "147.f.4",
    ];

    private static readonly string[] AboutFirstWork =
    [
        "147.c.1",
        "147.c.2.ii",
        "147.d.3",
        "147.d.4.i",
        "147.d.4.iii",
        "147.d.5.i",
        "147.d.6",
    ];

    private static readonly string[] AboutDevices =
    [
        Belief.Order,
        Belief.Notice,
        "147.c.9.after",
        "147.d.1",
        "147.d.2",
        "147.e.1",
        "147.e.2.i",
        "147.e.2.ii",
        "147.f.1.i",
        "147.f.1.ii",
        "147.f.4",
    ];

    /// <summary>The rows about which there is an opinion: every one that a record or a register can show.</summary>
    public static IEnumerable<string> AllRows => Rows.Keys.Concat(Credibility.Keys);

    /// <summary>The verdicts that each row leaves possible for a record in its context.</summary>
    public static IReadOnlyDictionary<string, Possible> Of(ServiceRecord record, AssessmentContext context) =>
        WithBeyond(record, context)
            .Where(opinion => AllRows.Contains(opinion.Key, StringComparer.Ordinal))
            .ToDictionary(StringComparer.Ordinal);

    /// <summary>The same, and what each rule beyond the table leaves possible.</summary>
    public static IReadOnlyDictionary<string, Possible> WithBeyond(
        ServiceRecord record,
        AssessmentContext context
    )
    {
        if (Story.Of(record, context) is not { } story)
        {
            return AllRows
                .Concat(BeyondTheTable)
                .ToDictionary(row => row, _ => Possible.Any, StringComparer.Ordinal);
        }

        var belief = new Belief(story);
        var opinions = Rows.ToDictionary(r => r.Key, r => belief.Of(r.Key, r.Value), StringComparer.Ordinal);
        if (!story.KnowsSources)
        {
            // Without a register of the machine or a procedure there is nothing to hold the steps against.
            foreach (var row in Rows.Keys.Where(row => opinions[row] != Possible.NotApplicable))
            {
                opinions[row] |= Possible.Unproven | Possible.NotApplicable;
            }
        }

        // The table reckons with the sources of the machine alone, not with what arrives.
        foreach (
            var row in story.Additions.Any()
                ? story.Additions.Any(s => story.FirstWork is not { } work || s.Before(work))
                    ? [.. AboutAdditions, .. AboutDevices, .. AboutFirstWork]
                    : AboutAdditions
                : []
        )
        {
            opinions[row] = Possible.Any;
        }

        if (story.Place != story.Record.Place && !story.Isolatable.Any())
        {
            // Called on the bench, started like a machine, and nothing anywhere to switch off: the table has no such machine.
            foreach (
                var row in (string[])[Belief.Notice, "147.c.9.after", "147.e.1", "147.e.2.i", "147.e.2.ii"]
            )
            {
                opinions[row] = Possible.Any;
            }
        }

        if (story.Place == WorkPlace.OnBench)
        {
            // The table is of machines: a unit on the bench is none, a grinder that is switched off like one is.
            // Nor does any register tell what there is at the bench where no procedure is in force.
            foreach (var row in Rows.Keys)
            {
                opinions[row] |=
                    !story.Isolatable.Any() ? Possible.NotApplicable
                    : story.InForce is null ? Possible.Unproven
                    : Possible.None;
            }

            opinions["147.c.4.ii"] = Possible.Any;
        }

        if (ProtectionRow.HangsOnTwo(story))
        {
            // Which of the two a device that comes off was on, the table does not say.
            opinions["147.f.1.v"] |= Possible.Judged;
        }

        if (
            story.Sources.Any(source => SequenceRows.HasPlug(story, source))
            || (story.Sources.Count == 0 && SequenceRows.HasPlug(story, ""))
        )
        {
            // The rows do not say whether a plug kept is a device, nor pulling it an isolation.
            foreach (var row in AboutDevices)
            {
                opinions[row] = Possible.Any;
            }
        }

        foreach (var (row, judge) in Credibility)
        {
            opinions[row] = judge(story);
        }

        foreach (var (rule, judge) in BeyondRows.All)
        {
            // An exemption that holds lifts some of these and not others, which the table does not say.
            opinions[rule] =
                belief.Of(rule, judge)
                | (ScopeRows.Exempt(story) == Possible.NotMet ? Possible.None : Possible.NotApplicable);
        }

        foreach (var (rule, judge) in BeyondRows.Doubts.Concat(BeyondRows.Told))
        {
            opinions[rule] = judge(story);
        }

        return LookRow.Is(story) ? OfALook(belief, opinions) : Suppressed(story, opinions);
    }

    /// <summary>Rules of the base pack beyond the table about which there is an opinion as well.</summary>
    public static IEnumerable<string> BeyondTheTable =>
        BeyondRows.All.Keys.Concat(BeyondRows.Doubts.Keys).Concat(BeyondRows.Told.Keys);

    /// <summary>What each row about credibility says, and each doubt beyond the table.</summary>
    internal static IEnumerable<Possible> Doubts(Story story) =>
        Credibility.Values.Concat(BeyondRows.Doubts.Values).Select(judge => judge(story));

    /// <summary>A look from outside asks one thing, and none of the rows of the law.</summary>
    private static Dictionary<string, Possible> OfALook(Belief belief, Dictionary<string, Possible> opinions)
    {
        foreach (var row in Rows.Keys)
        {
            opinions[row] = Possible.NotApplicable;
        }

        foreach (var rule in BeyondRows.All.Keys)
        {
            opinions[rule] |= Possible.NotApplicable;
        }

        opinions[LookRow.Rule] = belief.Of(LookRow.Rule, LookRow.Judge);
        return opinions;
    }

    /// <summary>A valid exemption makes every other row of the law not applicable, but none about credibility.</summary>
    private static Dictionary<string, Possible> Suppressed(Story story, Dictionary<string, Possible> opinions)
    {
        var exempt = ScopeRows.Exempt(story);
        if (exempt == Possible.NotMet)
        {
            return opinions;
        }

        foreach (var row in Rows.Keys)
        {
            bool holds = row is "147.a.2.ii.note" or "147.a.2.iii.A" && opinions[row].HasFlag(Possible.Met);
            opinions[row] =
                holds ? opinions[row]
                : exempt != Possible.Met ? opinions[row] | Possible.NotApplicable
                : row is "147.a.2.ii.note" or "147.a.2.iii.A" ? opinions[row] | Possible.NotApplicable
                : Possible.NotApplicable;
        }

        return opinions;
    }
}

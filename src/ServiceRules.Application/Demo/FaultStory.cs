using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Demo;

/// <summary>What each seeded fault is called in the shop, and what must come of it.</summary>
internal static class FaultStory
{
    private static readonly Subject Job = new Subject.Job();
    private static readonly Subject Set = new Subject.Set();

    // What a ride-on's timeline proves by entries that a tablet tapped through in one go would show.
    private static readonly ImmutableArray<string> TappedAtOnce =
    [
        "build-up-rechecked",
        "device-holds-off",
        "device-on-each-isolator",
        "isolating-device",
        "isolation-verified",
        "make-safe-order",
        "own-device-through-work",
        "sources-isolated",
        "stored-energy-released",
        "work-protected",
    ];

    // The rest of what it proves; entries that cannot be believed prove none of it.
    private static readonly ImmutableArray<string> RestsOnEntries =
    [
        "affected-told",
        "affected-told-after",
        "area-inspected",
        "brake-set",
        "cut-outs-proved",
        "device-off-by-owner",
        "drive-disengaged",
        "energy-reviewed",
        "guards-refitted",
        "key-kept",
        "machine-shut-down",
        "people-clear",
        "seen-at-rest",
        "told-before-start",
        "units-lowered",
    ];

    public static SeededFault Of(PlannedJob plan, ServiceRecord record)
    {
        var kind = plan.Fault!.Value;
        Id<UnitWork>? unit = IsOnOneUnit(kind) ? UnitCondition.IdOf(plan.Machine, plan.FaultyPosition) : null;
        return new()
        {
            Kind = kind,
            Unit = unit,
            Expected = [.. Expected(kind, unit is { } id ? new Subject.Unit(id) : Job, record)],
            Description = Told(kind, record.People[0].Id.Text, unit?.Text ?? string.Empty),
        };
    }

    private static bool IsOnOneUnit(SeededFaultKind kind) =>
        kind
            is SeededFaultKind.HeightReadBeforeClearance
                or SeededFaultKind.HeightReadAtOneEnd
                or SeededFaultKind.ClearanceTooWide
                or SeededFaultKind.HeavyContact
                or SeededFaultKind.ContactLost
                or SeededFaultKind.UnitTilted
                or SeededFaultKind.HeightOffTarget
                or SeededFaultKind.FrontRollerOutOfParallel
                or SeededFaultKind.ShieldTooWide
                or SeededFaultKind.GroomerOffHeight
                or SeededFaultKind.WornReelNotSetUp
                or SeededFaultKind.ReelBelowServiceLimit
                or SeededFaultKind.BedknifeLipGone
                or SeededFaultKind.BearingPlay;

    private static ImmutableArray<ExpectedFinding> Expected(
        SeededFaultKind kind,
        Subject subject,
        ServiceRecord record
    ) =>
        kind switch
        {
            SeededFaultKind.MisSetHeightGauge =>
            [
                .. On(Job, "instruments-fit"),
                .. EachUnit(record, "height-in-range", "height-on-target", "height-side-to-side"),
                .. record.Units.Length > 1
                    ? On(Set, "heights-match-across-units", "adjacent-ends-match")
                    : [],
            ],
            SeededFaultKind.IsolationNotVerified => On(
                Job,
                "build-up-rechecked",
                "isolation-verified",
                "work-protected"
            ),
            SeededFaultKind.GuardsNotRecorded => On(Job, "guards-refitted"),
            SeededFaultKind.NoLock => On(
                Job,
                "device-on-each-isolator",
                "own-device-through-work",
                "work-protected"
            ),
            SeededFaultKind.BackFilledTimes => On(
                Job,
                ["not-back-filled", .. RestsOnEntries, .. TappedAtOnce]
            ),
            SeededFaultKind.BurstOfSteps => On(Job, ["no-bursts", .. TappedAtOnce]),
            SeededFaultKind.LockTakenOffByAnother => On(Job, "device-off-by-owner", "work-protected"),
            SeededFaultKind.RecheckMissed => On(Job, "build-up-rechecked", "work-protected"),
            SeededFaultKind.LockOffMidJob => On(Job, "own-device-through-work", "work-protected"),
            SeededFaultKind.RunNotRelocked => On(
                Job,
                "adjuster-untouched-while-running",
                "own-device-through-work",
                "relocked-after-test",
                "work-protected"
            ),
            SeededFaultKind.AdjusterTurnedInRun => On(Job, "adjuster-untouched-while-running"),
            SeededFaultKind.ShiftGap => On(Job, "handover-continuous", "work-protected"),
            SeededFaultKind.BlockageClearedByHand => On(Job, "blockage-by-tool"),
            SeededFaultKind.DefectLeftOpen => On(Job, "defects-closed"),
            SeededFaultKind.NotSignedOff => On(Job, "signed-off"),
            SeededFaultKind.TrainingLapsed => On(Job, "people-authorised"),
            SeededFaultKind.CalibrationLapsed =>
            [
                .. On(Job, "instruments-fit"),
                .. EachUnit(record, "front-roller-parallel"),
            ],
            // What only one end shows of a unit proves nothing of it, nor of its place among the others.
            SeededFaultKind.HeightReadAtOneEnd =>
            [
                .. On(
                    subject,
                    "height-both-ends",
                    "height-in-range",
                    "height-on-target",
                    "height-side-to-side"
                ),
                .. On(Set, "heights-match-across-units", "adjacent-ends-match"),
            ],
            SeededFaultKind.FeelersNotInspected => On(Job, "instruments-fit"),
            SeededFaultKind.SpreadAcrossUnits => On(Set, "heights-match-across-units"),
            SeededFaultKind.AdjacentEndsStep => On(Set, "adjacent-ends-match"),
            _ => On(subject, RulesOnUnit(kind)),
        };

    private static string[] RulesOnUnit(SeededFaultKind kind) =>
        kind switch
        {
            SeededFaultKind.HeightReadBeforeClearance =>
            [
                "height-read-after-clearance",
                "height-both-ends-after-touch-up",
                "height-in-range-after-touch-up",
                "height-on-target-after-touch-up",
                "height-side-to-side-after-touch-up",
            ],
            SeededFaultKind.ClearanceTooWide => ["clearance-set-as-taught", "clearance-within-limits"],
            SeededFaultKind.HeavyContact => ["contact-fits-school", "clearance-within-limits"],
            SeededFaultKind.ContactLost => ["contact-fits-school"],
            SeededFaultKind.UnitTilted => ["height-side-to-side"],
            SeededFaultKind.HeightOffTarget => ["height-on-target"],
            SeededFaultKind.FrontRollerOutOfParallel => ["front-roller-parallel"],
            SeededFaultKind.ShieldTooWide => ["shield-gap-within-limits"],
            SeededFaultKind.GroomerOffHeight => ["groomer-starts-at-height"],
            SeededFaultKind.WornReelNotSetUp => ["worn-reel-set-up"],
            SeededFaultKind.ReelBelowServiceLimit => ["reel-above-service-limit"],
            SeededFaultKind.BedknifeLipGone => ["bedknife-lip-left"],
            SeededFaultKind.BearingPlay => ["bearings-sound"],
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a fault of one unit"),
        };

    private static ImmutableArray<ExpectedFinding> On(Subject subject, params string[] rules) =>
        [.. rules.Select(rule => new ExpectedFinding(rule, subject))];

    private static IEnumerable<ExpectedFinding> EachUnit(ServiceRecord record, params string[] rules) =>
        record.Units.SelectMany(unit => On(new Subject.Unit(unit.Id), rules));

    private static string Told(SeededFaultKind kind, string person, string unit) =>
        kind switch
        {
            SeededFaultKind.MisSetHeightGauge =>
                "height gauge HG-03 read 0.06 mm high on its setting piece, and was used all the same",
            SeededFaultKind.IsolationNotVerified =>
                $"{person} locked off and started work without trying that nothing moves",
            SeededFaultKind.GuardsNotRecorded => $"{person} handed back with no word of the guards",
            SeededFaultKind.NoLock => $"{person} switched the battery off and hung no lock",
            SeededFaultKind.BackFilledTimes =>
                $"{person} entered the whole job that evening with times that look made at the time",
            SeededFaultKind.BurstOfSteps => $"{person} tapped lock, releases and proof in one go",
            SeededFaultKind.LockTakenOffByAnother => $"lead-01 took off the lock of {person}",
            SeededFaultKind.RecheckMissed =>
                "more than two hours of work with no second check of the hydraulics",
            SeededFaultKind.BlockageClearedByHand => $"{person} pulled the blockage out by hand",
            SeededFaultKind.DefectLeftOpen => $"{person} found a cracked deflector plate and left it",
            SeededFaultKind.NotSignedOff => $"{person} did the work and never signed it off",
            SeededFaultKind.TrainingLapsed => $"{person} worked after the training had run out",
            SeededFaultKind.CalibrationLapsed => "dial gauge DG-02 out of a drawer, its calibration run out",
            SeededFaultKind.FeelersNotInspected => "feelers FG-09 out of the van, inspected by nobody",
            SeededFaultKind.LockOffMidJob =>
                $"{person}, alone, took the lock off in the middle of the work and hung it again four minutes later",
            SeededFaultKind.RunNotRelocked =>
                $"{person} ran the machine to hear the contact, and went in again with nothing locked",
            SeededFaultKind.AdjusterTurnedInRun =>
                $"{person} lapped, and turned the adjuster by one click while the reel was turning",
            SeededFaultKind.ShiftGap =>
                $"{person} took the lock off and left; the next shift hung its own half an hour later, told nothing",
            SeededFaultKind.SpreadAcrossUnits => "each unit near its target, 0.18 mm from one to the other",
            SeededFaultKind.AdjacentEndsStep => "units 2 and 3 meet in a step of about 0.6 mm",
            _ => ToldOfUnit(kind, unit),
        };

    private static string ToldOfUnit(SeededFaultKind kind, string unit) =>
        kind switch
        {
            SeededFaultKind.HeightReadBeforeClearance =>
                $"{unit}: height read, then the moving bedknife set, and height not read again",
            SeededFaultKind.HeightReadAtOneEnd => $"{unit}: height read at the left end only",
            SeededFaultKind.ClearanceTooWide => $"{unit}: opened three clicks too many",
            SeededFaultKind.HeavyContact => $"{unit}: reel hard on its bedknife",
            SeededFaultKind.ContactLost => $"{unit}: set to light contact, and does not touch",
            SeededFaultKind.UnitTilted => $"{unit}: left end 0.15 mm higher than the right",
            SeededFaultKind.HeightOffTarget => $"{unit}: 0.35 mm above its target",
            SeededFaultKind.FrontRollerOutOfParallel => $"{unit}: front roller out of parallel and left so",
            SeededFaultKind.ShieldTooWide => $"{unit}: shield 2.4 mm off the blades",
            SeededFaultKind.GroomerOffHeight => $"{unit}: groomer set 0.6 mm below the height of cut",
            SeededFaultKind.WornReelNotSetUp =>
                $"{unit}: reel ground below its worn value, bedknife left in its first position",
            SeededFaultKind.ReelBelowServiceLimit => $"{unit}: reel ground below its service limit",
            SeededFaultKind.BedknifeLipGone => $"{unit}: bedknife lip ground below its service limit",
            SeededFaultKind.BearingPlay => $"{unit}: play in a reel bearing, and left so",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a fault of one unit"),
        };
}

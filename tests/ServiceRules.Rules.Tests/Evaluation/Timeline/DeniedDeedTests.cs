using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Words of locks, props, defects put right and of people told that deny them; and of why, as of how.</summary>
public sealed class DeniedDeedTests
{
    [Theory]
    [InlineData(TimelineEventKind.LockApplied, "hasp would not close")]
    [InlineData(TimelineEventKind.LockApplied, "padlock left open")]
    [InlineData(TimelineEventKind.LockApplied, "not locked, key lost")]
    [InlineData(TimelineEventKind.TagApplied, "tag came off")]
    [InlineData(TimelineEventKind.PlugControlConfirmed, "left lying out of sight")]
    [InlineData(TimelineEventKind.ReelWedged, "wedge slipped out")]
    [InlineData(TimelineEventKind.UnitSupported, "stand would not hold")]
    [InlineData(TimelineEventKind.UnitSupported, "held up by hand")]
    [InlineData(TimelineEventKind.StoredEnergyRechecked, "not checked")]
    [InlineData(TimelineEventKind.SafetyDefectClosed, "part on order")]
    [InlineData(TimelineEventKind.SafetyDefectClosed, "deflector still loose")]
    [InlineData(TimelineEventKind.SafetyDefectClosed, "could not repair it")]
    [InlineData(TimelineEventKind.SafetyDefectClosed, "left deflector off")]
    [InlineData(TimelineEventKind.SafetyDefectClosed, "taped for now")]
    [InlineData(TimelineEventKind.EnergyReviewed, "skipped")]
    [InlineData(TimelineEventKind.AffectedNotifiedBefore, "could not reach him")]
    [InlineData(TimelineEventKind.AffectedNotifiedBefore, "nobody there")]
    [InlineData(TimelineEventKind.RemovalNotified, "no answer")]
    [InlineData(TimelineEventKind.ExposureChecked, "one still missing")]
    [InlineData(TimelineEventKind.HandoverBriefed, "no time")]
    [InlineData(TimelineEventKind.HandoverBriefed, "nobody briefed")]
    [InlineData(TimelineEventKind.HandoverBriefed, "left before I could brief him")]
    [InlineData(TimelineEventKind.ContractorProceduresExchanged, "nothing exchanged")]
    [InlineData(TimelineEventKind.AffectedNotifiedBefore, "nobody told")]
    [InlineData(TimelineEventKind.AffectedNotifiedBefore, "told nobody")]
    [InlineData(TimelineEventKind.AffectedNotifiedBefore, "they do not know of it")]
    [InlineData(TimelineEventKind.RemovalNotified, "will tell them tomorrow")]
    [InlineData(TimelineEventKind.ExposureChecked, "two not accounted for")]
    [InlineData(TimelineEventKind.ExposureChecked, "two still in the machine")]
    [InlineData(TimelineEventKind.ExposureChecked, "one short")]
    [InlineData(TimelineEventKind.ExposureChecked, "nobody counted")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "two still by the reel")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "two by the reel")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "helper at the reel")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "children behind the machine")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "nobody looked")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "not everybody is clear")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "he would not go away")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "Tom has his hands in the unit")]
    [InlineData(TimelineEventKind.CutOutsProved, "seat switch bridged")]
    [InlineData(TimelineEventKind.CutOutsProved, "nobody tried them")]
    [InlineData(TimelineEventKind.CutOutsProved, "cut-outs out of order")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "was in the shop all along")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "is still on site")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "working at the next bench")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "did not look for him")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "not absent, at lunch")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "assumed he had gone")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "saw him in the yard")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "never left")]
    [InlineData(TimelineEventKind.ContactAttempted, "did not ring")]
    [InlineData(TimelineEventKind.ContactAttempted, "didn't bother to call")]
    [InlineData(TimelineEventKind.ContactAttempted, "not tried")]
    [InlineData(TimelineEventKind.ContactAttempted, "nobody rang him")]
    [InlineData(TimelineEventKind.ContactAttempted, "no time to call")]
    [InlineData(TimelineEventKind.ContactAttempted, "will ring tomorrow")]
    [InlineData(TimelineEventKind.ContactAttempted, "could not ring, no phone")]
    [InlineData(TimelineEventKind.OwnerInformed, "not told")]
    [InlineData(TimelineEventKind.OwnerInformed, "he does not know yet")]
    [InlineData(TimelineEventKind.CutOutsProved, "kept running with seat empty")]
    [InlineData(TimelineEventKind.CutOutsProved, "engine ran on with nobody on the seat")]
    [InlineData(TimelineEventKind.GuardsRefitted, "left deflector off")]
    [InlineData(TimelineEventKind.IsolatorOperated, "could not get it to turn")]
    public void By_WordsThatDenyTheEntry_InHowAndInWhy(TimelineEventKind kind, string words)
    {
        Assert.True(SaidOtherwise.By(Entry(kind) with { Method = words }));
        Assert.True(SaidOtherwise.By(Entry(kind) with { Reason = words }));
        Assert.True(SaidOtherwise.By(Entry(kind) with { Method = "as always", Reason = words }));
    }

    [Theory]
    [InlineData(TimelineEventKind.LockApplied, "red padlock, hasp closed")]
    [InlineData(TimelineEventKind.LockApplied, "lock on, switch could not be closed")]
    [InlineData(TimelineEventKind.LockApplied, "lever would not turn when tried")]
    [InlineData(TimelineEventKind.TagApplied, "hung at the lock point, no lock fits")]
    [InlineData(TimelineEventKind.PlugControlConfirmed, "plug in my pocket, in sight all the time")]
    [InlineData(TimelineEventKind.ReelWedged, "hardwood wedge, reel would not turn")]
    [InlineData(TimelineEventKind.UnitSupported, "two axle stands under the frame")]
    [InlineData(TimelineEventKind.UnitSupported, "slipped once, set again")]
    [InlineData(TimelineEventKind.StoredEnergyRechecked, "gauge at 0 bar")]
    [InlineData(TimelineEventKind.SafetyDefectClosed, "deflector plate replaced, bolts torqued")]
    [InlineData(TimelineEventKind.SafetyDefectClosed, "could not be repaired, replaced")]
    [InlineData(TimelineEventKind.SafetyDefectClosed, "bolt was missing, fitted")]
    [InlineData(TimelineEventKind.EnergyReviewed, "read the card at the machine")]
    [InlineData(TimelineEventKind.AffectedNotifiedBefore, "told him at the gate, by phone")]
    [InlineData(TimelineEventKind.RemovalNotified, "told both")]
    [InlineData(TimelineEventKind.ExposureChecked, "counted, nobody missing")]
    [InlineData(TimelineEventKind.ExposureChecked, "both out, two of two accounted for")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "nobody by the reel")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "two by the gate, clear of the machine")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "helper stands at the stop")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "looked behind the machine and under the units")]
    [InlineData(TimelineEventKind.PeopleClearChecked, "all hands out, no one at the reel")]
    [InlineData(TimelineEventKind.HandoverBriefed, "both briefed at the machine")]
    [InlineData(TimelineEventKind.AffectedNotifiedBefore, "told them, nobody objected")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "gone home at 16:30, not in the shop")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "was in the shop until 16:00, then left")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "looked in the shop and the yard, he is not there")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "clocked out, is at home with a cold")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "not on site by the gate log")]
    [InlineData(TimelineEventKind.AbsenceConfirmed, "nobody in the workshop has seen him since noon")]
    [InlineData(TimelineEventKind.ContactAttempted, "rang twice, no answer")]
    [InlineData(TimelineEventKind.ContactAttempted, "could not reach him on his mobile")]
    [InlineData(TimelineEventKind.ContactAttempted, "did not pick up, has not called back")]
    [InlineData(TimelineEventKind.ContactAttempted, "rang and sent a text")]
    [InlineData(TimelineEventKind.OwnerInformed, "told him at the gate, by phone")]
    [InlineData(TimelineEventKind.CutOutsProved, "engine stopped with the seat empty")]
    [InlineData(
        TimelineEventKind.CutOutsProved,
        "engine kept running with me on the seat, stopped when I rose"
    )]
    [InlineData(TimelineEventKind.CutOutsProved, "reel still when seat empty")]
    [InlineData(TimelineEventKind.GuardsRefitted, "left and right deflector back on")]
    [InlineData(TimelineEventKind.IsolatorOperated, "off, could not get the engine to turn")]
    public void By_HonestWords_DenyNothing(TimelineEventKind kind, string words)
    {
        Assert.False(SaidOtherwise.By(Entry(kind) with { Method = words }));
        Assert.False(SaidOtherwise.By(Entry(kind) with { Reason = words }));
    }

    [Fact]
    public void Protection_LockThatWouldNotClose_IsUnprovenAndQuoted()
    {
        var outcome = new SafetyCase()
            .With(
                (MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After).Replace(
                    "lock=L-11 position=off",
                    "lock=L-11 position=off method=hasp_would_not_close",
                    StringComparison.Ordinal
                )
            )
            .Judge(new Check.Protection());

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
        Assert.Contains("says `hasp would not close`", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Rest_DeniedInWhy_IsQuotedAsThat()
    {
        var outcome = new SafetyCase()
            .With(
                MakeSafe.Seat.Replace(
                    "08:04 seen_at_rest tech-01",
                    "08:04 seen_at_rest tech-01 reason=reel_still_turning",
                    StringComparison.Ordinal
                )
                    + MakeSafe.Isolation
                    + MakeSafe.Work
            )
            .Judge(FoundationChecks.Before(TimelineEventKind.SeenAtRest));

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("says `reel still turning`", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Defect_SaidNotToBePutRight_IsUnproven() =>
        Assert.Equal(
            Verdict.Unproven,
            new SafetyCase()
                .With(
                    "09:00 safety_defect_found tech-01\n09:20 safety_defect_closed tech-01 method=part_on_order"
                )
                .Judge(new Check.RecordPart(RequiredPart.SafetyDefectsClosed))
                .Verdict
        );

    [Theory]
    [InlineData("left deflector off", Verdict.Unproven)]
    [InlineData("new deflector, all bolts in", Verdict.Met)]
    public void Guards_FittedWithANote_AreTakenAtTheirNote(string note, Verdict expected) =>
        Assert.Equal(expected, (
                new SafetyCase() with
                {
                    Units =
                    [
                        new()
                        {
                            Id = new("U-1"),
                            Sheet = new("sheet"),
                            Entries = [new PartFitted { Part = PartKind.Guard, Note = note }],
                        },
                    ],
                }
            ).Judge(new Check.RecordPart(RequiredPart.SafetyDefectsClosed)).Verdict);

    [Theory]
    [InlineData("reel_still_turning", Verdict.Unproven)]
    [InlineData("with_my_foot", Verdict.Unproven)]
    [InlineData("branch_between_the_blades", Verdict.Met)]
    public void Blockage_WordsOfWhy_AreReadAsThoseOfHow(string reason, Verdict expected) =>
        Assert.Equal(
            expected,
            new SafetyCase()
                .With($"09:00 blockage_cleared_with_tool tech-01 reason={reason}")
                .Judge(new Check.RecordPart(RequiredPart.BlockageByTool))
                .Verdict
        );

    private static TimelineEvent Entry(TimelineEventKind kind) =>
        TimelineLine.Read($"08:00 {kind} tech-01", new(2026, 4, 13));
}

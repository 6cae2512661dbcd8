using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Checking.SoundLibrary;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>Each diagnostic has an example that earns it, and the sound library that none of them touches.</summary>
public class PackCheckTests
{
    private static readonly Dictionary<
        string,
        (RuleLibrary Library, string Code, string File, string Pointer)
    > Spoilt = new(StringComparer.Ordinal)
    {
        ["a rule twice in one layer"] = (
            With(Limit, Limit),
            DiagnosticCode.RuleTwice,
            "base/a.rules.json",
            "/rules/1/id"
        ),
        ["a sheet twice"] = (
            Sound with
            {
                Sheets = [.. Sound.Sheets, new(SoundLibrary.Sheet, "sheets/b.sheet.json", "")],
            },
            DiagnosticCode.IdentityTwice,
            "sheets/b.sheet.json",
            "/id"
        ),
        ["a procedure twice"] = (
            Sound with
            {
                Procedures =
                [
                    .. Sound.Procedures,
                    new(
                        SoundLibrary.Procedure with
                        {
                            Machines = [new("M-02")],
                        },
                        "site/procedures/b.json",
                        ""
                    ),
                ],
            },
            DiagnosticCode.IdentityTwice,
            "site/procedures/b.json",
            "/id"
        ),
        ["an unknown sheet in a rule"] = (
            With(Limit with { When = Limit.When with { Sheets = ["sheet-a", "sheet-b"] } }),
            DiagnosticCode.UnknownSheet,
            "base/a.rules.json",
            "/rules/0/when/sheets/1"
        ),
        ["an unknown sheet in a setting order"] = (
            With(SoundLibrary.Order with { Schools = [new("sheet-b", ContactSchool.AirGap)] }),
            DiagnosticCode.UnknownSheet,
            "site/setting-orders/S-1.json",
            "/schools/0/sheet"
        ),
        ["a case of an unknown rule"] = (
            Sound with
            {
                Cases = Sound.Cases.Add(
                    new(new("no-such-rule", Verdict.Met), "base/a.cases.json", "/cases/9")
                ),
            },
            DiagnosticCode.UnknownRule,
            "base/a.cases.json",
            "/cases/9/rule"
        ),
        ["a waiver of an unknown rule"] = (
            Sound with
            {
                Waivers =
                [
                    new(
                        new("no-such-rule", null, new("lead-01"), "trial", new(2026, 4, 1), new(2026, 4, 2)),
                        "site/registers.json",
                        "/waivers/0"
                    ),
                ],
            },
            DiagnosticCode.UnknownRule,
            "site/registers.json",
            "/waivers/0/rule"
        ),
        ["a waiver by somebody who may not"] = (
            Sound with
            {
                People = [new(new(new("lead-01"), true, null, null), "site/registers.json", "/people/0")],
                Waivers =
                [
                    new(
                        new(Limit.Id.Text, null, new("lead-01"), "trial", new(2026, 4, 1), new(2026, 4, 2)),
                        "site/registers.json",
                        "/waivers/0"
                    ),
                ],
            },
            DiagnosticCode.MayNotRelease,
            "site/registers.json",
            "/waivers/0/by"
        ),
        ["a sheet without what the rule needs"] = (
            With(Limit with { Check = new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Sides) }),
            DiagnosticCode.SheetSaysNothing,
            "base/a.rules.json",
            "/rules/0/check"
        ),
        ["a sheet without the taper that the rule asks for"] = (
            With(Limit with { Check = new Check.ReelForm(ReelFormOf.Taper) }),
            DiagnosticCode.SheetSaysNothing,
            "base/a.rules.json",
            "/rules/0/check"
        ),
        ["a sheet without the twist that the rule asks for"] = (
            With(Limit with { Check = new Check.Twist() }),
            DiagnosticCode.SheetSaysNothing,
            "base/a.rules.json",
            "/rules/0/check"
        ),
        ["a rule that asks twice whether something was read"] = (
            With(
                Limit with
                {
                    When = Limit.When with { AnyRead = [MeasuredQuantity.Edge, MeasuredQuantity.Edge] },
                }
            ),
            DiagnosticCode.ListRepeats,
            "base/a.rules.json",
            "/rules/0/when/anyRead/1"
        ),
        ["an area that no order has"] = (
            With(Limit with { When = Limit.When with { Areas = ["golf-grens"] } }),
            DiagnosticCode.UnknownArea,
            "base/a.rules.json",
            "/rules/0/when/areas/0"
        ),
        ["a jurisdiction that is not there"] = (
            Sound with
            {
                Jurisdictions = [new("gb", "site/site.json", "/jurisdictions/0")],
            },
            DiagnosticCode.UnknownJurisdiction,
            "site/site.json",
            "/jurisdictions/0"
        ),
        ["a lock of nobody in the register"] = (
            Sound with
            {
                Locks = [new(new(new("L-1"), new("tech-09")), "site/registers.json", "/locks/0")],
            },
            DiagnosticCode.UnknownPerson,
            "site/registers.json",
            "/locks/0/owner"
        ),
        ["a rule that applies to no sheet"] = (
            With(Limit with { When = new() { Bedknife = BedknifeMounting.Fixed } }),
            DiagnosticCode.NeverApplies,
            "base/a.rules.json",
            "/rules/0/when"
        ),
        ["a task that no rule reaches"] = (
            With(Limit with { When = Limit.When with { Tasks = [ServiceTask.TouchUp] } }),
            DiagnosticCode.TaskNotReached,
            "sheets/a.sheet.json",
            ""
        ),
        // 0.0005 in is 0.0127 mm: with 0.025 mm beside it, the sheet is wrong.
        ["a printed pair that cannot be one length"] = (
            WithAdjuster(0, adjuster => adjuster with { Step = D("0.0005 in", "0.025 mm") }),
            DiagnosticCode.PrintsDisagree,
            "sheets/a.sheet.json",
            "/adjusters/0/step"
        ),
        ["a printed pair further apart than 5 %"] = (
            WithAdjuster(0, adjuster => adjuster with { Step = D("0.0005 in", "0.012 mm") }),
            DiagnosticCode.PrintsFarApart,
            "sheets/a.sheet.json",
            "/adjusters/0/step"
        ),
        ["limits that leave nothing between them"] = (
            With(
                SoundLibrary.Sheet with
                {
                    Quantities = SoundLibrary.Sheet.Quantities.SetItem(
                        1,
                        SoundLibrary.Sheet.Quantities[1] with
                        {
                            Upper = D("0.080 in"),
                        }
                    ),
                }
            ),
            DiagnosticCode.EmptyZone,
            "sheets/a.sheet.json",
            "/quantities/1/upper"
        ),
        ["a target outside one of the prints"] = (
            WithClearance(limit => limit with { Target = D("0.002 in", "0.052 mm") }),
            DiagnosticCode.TargetOutside,
            "sheets/a.sheet.json",
            "/quantities/0/target"
        ),
        ["a target that the sheet does not reach"] = (
            With(
                SoundLibrary.Order with
                {
                    Targets =
                    [
                        new("golf-greens", "sheet-a", MeasuredQuantity.HeightOfCut, L("1.5 mm"), null),
                    ],
                }
            ),
            DiagnosticCode.TargetOutside,
            "site/setting-orders/S-1.json",
            "/targets/0/target"
        ),
        ["a limit governed by the other system of units"] = (
            WithClearance(limit => limit with { Upper = D("0.050 mm", "0.002 in") }),
            DiagnosticCode.MixedUnits,
            "sheets/a.sheet.json",
            "/quantities/0/upper"
        ),
        ["a clearance adjuster without its places"] = (
            WithAdjuster(0, adjuster => adjuster with { LeftAt = null, RightAt = null }),
            DiagnosticCode.NoGeometry,
            "sheets/a.sheet.json",
            "/adjusters/0"
        ),
        ["adjusters the wrong way round"] = (
            WithAdjuster(0, adjuster => adjuster with { LeftAt = L("520 mm"), RightAt = L("-10 mm") }),
            DiagnosticCode.NoGeometry,
            "sheets/a.sheet.json",
            "/adjusters/0/rightAt"
        ),
        ["a lower limit equal to the feeler that passes"] = (
            WithClearance(limit => limit with { Lower = D("0.001 in", "0.025 mm") }),
            DiagnosticCode.ProcedureCannotEnd,
            "sheets/a.sheet.json",
            "/quantities/0/schools/0/passes"
        ),
        ["an upper limit equal to the feeler that stops"] = (
            WithClearance(limit => limit with { Upper = D("0.0015 in", "0.038 mm") }),
            DiagnosticCode.ProcedureCannotEnd,
            "sheets/a.sheet.json",
            "/quantities/0/schools/0/stops"
        ),
        ["a step that jumps past both feelers"] = (
            WithAdjuster(0, adjuster => adjuster with { Step = D("0.001 in", "0.025 mm") }),
            DiagnosticCode.ProcedureCannotEnd,
            "sheets/a.sheet.json",
            "/quantities/0/schools/0/stops"
        ),
        ["height that disturbs the clearance that disturbs the height"] = (
            WithAdjuster(
                1,
                adjuster => adjuster with { Disturbs = [new(MeasuredQuantity.Clearance, null, null)] }
            ),
            DiagnosticCode.DisturbanceLoop,
            "sheets/a.sheet.json",
            "/adjusters/0/disturbs"
        ),
        ["ends asked for, and no stations to reckon them from"] = (
            WithClearance(limit => limit with { LeftStation = null, RightStation = null }),
            DiagnosticCode.NoStations,
            "base/a.rules.json",
            "/rules/0/check"
        ),
        ["a school in force that the sheet does not teach"] = (
            With(SoundLibrary.Order with { Schools = [new("sheet-a", ContactSchool.LightContact)] }),
            DiagnosticCode.SchoolNotTaught,
            "site/setting-orders/S-1.json",
            "/schools/0/school"
        ),
        ["steps coarser than what the limits leave"] = (
            WithClearance(limit =>
                limit with
                {
                    Upper = D("0.0009 in", "0.022 mm"),
                    Target = null,
                    Schools = [],
                }
            ),
            DiagnosticCode.StepsTooCoarse,
            "sheets/a.sheet.json",
            "/quantities/0/upper"
        ),
        ["a sheet without cautions"] = (
            With(SoundLibrary.Sheet with { Cautions = [] }),
            DiagnosticCode.SheetWithoutWords,
            "sheets/a.sheet.json",
            ""
        ),
        ["a limit on a unit judged on the job"] = (
            With(Limit with { Scope = RuleScope.Job }),
            DiagnosticCode.ScopeDoesNotFit,
            "base/a.rules.json",
            "/rules/0/scope"
        ),
        ["a sound condition of a length"] = (
            With(Limit with { Check = new Check.SoundCondition(MeasuredQuantity.Clearance) }),
            DiagnosticCode.QuantityDoesNotFit,
            "base/a.rules.json",
            "/rules/0/check/quantity"
        ),
        ["an event twice in one list"] = (
            With(
                Step with
                {
                    Check = new Check.OrderOfEvents([
                        TimelineEventKind.MachineShutDown,
                        TimelineEventKind.LockApplied,
                        TimelineEventKind.MachineShutDown,
                    ]),
                }
            ),
            DiagnosticCode.ListRepeats,
            "base/a.rules.json",
            "/rules/0/check/order/2"
        ),
        ["a stop that lets the unproven out"] = (
            With(Step with { Unproven = UnprovenPolicy.Advise }),
            DiagnosticCode.StopLetsUnprovenThrough,
            "base/a.rules.json",
            "/rules/0/unproven"
        ),
        ["published without a source"] = (
            With(Limit with { Basis = new(BasisKind.Published, null, null) }),
            DiagnosticCode.NoSource,
            "base/a.rules.json",
            "/rules/0/basis"
        ),
        ["a limit published without a source"] = (
            WithClearance(limit => limit with { Basis = new(BasisKind.Published, " ", null) }),
            DiagnosticCode.NoSource,
            "sheets/a.sheet.json",
            "/quantities/0/basis"
        ),
        ["a rule without a case that is not met"] = (
            Sound with
            {
                Cases =
                [
                    .. Sound.Cases.Where(one =>
                        one.Value is not { Rule: "key-kept", Expect: Verdict.NotMet }
                    ),
                ],
            },
            DiagnosticCode.CaseMissing,
            "base/a.rules.json",
            "/rules/1"
        ),
        ["a case that its rule can never give"] = (
            With(Step with { Check = new Check.RecordPart(RequiredPart.SignOff) }) with
            {
                Cases =
                [
                    .. CasesFor(Step with { Check = new Check.RecordPart(RequiredPart.SignOff) }),
                    new(new("key-kept", Verdict.NotMet), "base/a.cases.json", "/cases/9"),
                ],
            },
            DiagnosticCode.CaseImpossible,
            "base/a.cases.json",
            "/cases/9/expect"
        ),
        ["a limit that no registered gauge can prove"] = (
            Sound with
            {
                Instruments =
                [
                    Owned("CL-01", "0.01 mm", "0.500 mm", MeasuredQuantity.Clearance),
                    Owned("CL-02", "0.01 mm", "0.100 mm", MeasuredQuantity.Clearance),
                    Owned("HG-01", "0.01 mm", "0.010 mm", MeasuredQuantity.HeightOfCut),
                ],
            },
            DiagnosticCode.NoGaugeCanProve,
            "sheets/a.sheet.json",
            "/quantities/0"
        ),
        ["a gauge with a step that none shows"] = (
            Sound with
            {
                Instruments = [Owned("CL-01", "0.0001 mm", "0.002 mm", MeasuredQuantity.LandWidth)],
            },
            DiagnosticCode.StepTooFine,
            "site/registers.json",
            "/instruments/0/resolution"
        ),
        ["two procedures for one machine"] = (
            Sound with
            {
                Procedures =
                [
                    .. Sound.Procedures,
                    new(SoundLibrary.Procedure with { Id = new("P-2") }, "site/procedures/b.json", ""),
                ],
            },
            DiagnosticCode.ProcedureTwice,
            "site/procedures/b.json",
            "/machines/0"
        ),
    };

    public static TheoryData<string> Names() => [.. Spoilt.Keys];

    [Fact]
    public void Of_SoundLibrary_TellsNothing() => Assert.Empty(PackCheck.Of(Sound, new(2026, 11, 26)));

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_OneThingSpoilt_TellsIt(string name)
    {
        var (library, code, file, pointer) = Spoilt[name];
        var told = PackCheck.Of(library);
        Assert.Contains((code, file, pointer), told.Select(one => (one.Code, one.File, one.Pointer)));
        Assert.All(told, one => Assert.False(string.IsNullOrWhiteSpace(one.What)));
        Assert.All(told, one => Assert.False(string.IsNullOrWhiteSpace(one.Right)));
    }

    [Fact]
    public void Of_EveryCodeOfThePackCheck_HasAnExample()
    {
        string[] ofFiles =
        [
            DiagnosticCode.CaseCannotBeBuilt,
            DiagnosticCode.FileNotRead,
            DiagnosticCode.TooMuch,
            DiagnosticCode.FileMissing,
            DiagnosticCode.CannotBeRead,
            DiagnosticCode.Loosens,
        ];
        var codes = typeof(DiagnosticCode).GetFields().Select(field => (string)field.GetRawConstantValue()!);
        Assert.Equal(
            codes.Except(ofFiles).Order(),
            Spoilt
                .Values.Select(one => one.Code)
                .Union(SafeWorkPackTests.Codes)
                .Union(RulesTogetherTests.Codes)
                .Union([
                    DiagnosticCode.RuleNotReached,
                    DiagnosticCode.OrderWider,
                    DiagnosticCode.StopWaived,
                    DiagnosticCode.WaivedTwice,
                ])
                .Order()
        );
    }

    [Fact]
    public void Code_Names_AreStable() =>
        Assert.Equal(
            typeof(DiagnosticCode).GetFields().Length,
            typeof(DiagnosticCode).GetFields().Select(field => field.GetRawConstantValue()).Distinct().Count()
        );
}

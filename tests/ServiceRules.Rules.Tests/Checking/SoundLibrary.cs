using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>A small library with nothing wrong, and ways to spoil one thing in it.</summary>
internal static class SoundLibrary
{
    public static readonly Basis Practice = new(BasisKind.CommonPractice, null, null);

    public static Rule Limit { get; } =
        new()
        {
            Id = new("clearance-within-limits"),
            Title = "Clearance within limits",
            Requirement = "The gap lies inside the limits.",
            When = new() { SheetStates = MeasuredQuantity.Clearance },
            Scope = RuleScope.Unit,
            Check = new Check.LimitOnQuantity(
                MeasuredQuantity.Clearance,
                LimitSource.Sheet,
                CheckedPlaces.StationsAndEnds
            ),
            Severity = Severity.Hold,
            Basis = Practice,
            Advice = "Turn the adjusters.",
        };

    public static Rule Step { get; } =
        Limit with
        {
            Id = new("key-kept"),
            When = Applicability.Always,
            Scope = RuleScope.Job,
            Check = new Check.RequiredEvent(
                [Domain.Timeline.TimelineEventKind.KeyRemoved],
                RequiredPer.Job,
                RequiredWhen.BeforeWork,
                MachineNeed.Key
            ),
            Severity = Severity.Stop,
        };

    /// <summary>Judges the procedure that the sheet teaches, wherever the clearance was turned.</summary>
    public static Rule Taught { get; } =
        Limit with
        {
            Id = new("clearance-set-as-taught"),
            When = new() { SheetStates = MeasuredQuantity.Clearance, AnyTurned = [AdjusterKind.Clearance] },
            Check = new Check.ProceduralLimit(MeasuredQuantity.Clearance),
        };

    /// <summary>Judges the height that the sheet states, wherever it was turned.</summary>
    public static Rule Height { get; } =
        Limit with
        {
            Id = new("height-in-range"),
            When = new() { SheetStates = MeasuredQuantity.HeightOfCut, AnyTurned = [AdjusterKind.Height] },
            Check = new Check.LimitOnQuantity(
                MeasuredQuantity.HeightOfCut,
                LimitSource.Sheet,
                CheckedPlaces.Stations
            ),
        };

    public static LimitSheet Sheet { get; } =
        new()
        {
            Id = new("sheet-a"),
            Title = "125 mm / 9 / 510 mm",
            Basis = Practice,
            ReelDiameter = D("4.92 in", "125 mm"),
            Blades = 9,
            Width = D("20.08 in", "510 mm"),
            Bedknife = BedknifeMounting.Moving,
            Adjusters =
            [
                new()
                {
                    Kind = AdjusterKind.Clearance,
                    Step = D("0.0005 in"),
                    LeftAt = L("-10 mm"),
                    RightAt = L("520 mm"),
                    Disturbs = [new(MeasuredQuantity.HeightOfCut, D("0.0004 in"), 2)],
                },
                new()
                {
                    Kind = AdjusterKind.Height,
                    Disturbs = [new(MeasuredQuantity.GroomerHeight, null, null)],
                },
                new() { Kind = AdjusterKind.Groomer },
            ],
            Quantities =
            [
                new()
                {
                    Quantity = MeasuredQuantity.Clearance,
                    LeftStation = L("25 mm"),
                    RightStation = L("485 mm"),
                    Lower = D("0.0005 in", "0.013 mm"),
                    Upper = D("0.002 in", "0.050 mm"),
                    Target = D("0.00125 in", "0.032 mm"),
                    Schools =
                    [
                        new(ContactSchool.AirGap, D("0.001 in", "0.025 mm"), D("0.0015 in", "0.038 mm")),
                    ],
                    Basis = Practice,
                },
                new()
                {
                    Quantity = MeasuredQuantity.HeightOfCut,
                    LeftStation = L("51 mm"),
                    RightStation = L("459 mm"),
                    Lower = D("0.080 in"),
                    Upper = D("0.500 in"),
                    Basis = Practice,
                },
            ],
            Procedure = ["Open until the feeler just passes."],
            Cautions = ["A sharp reel cuts at rest."],
        };

    public static SettingOrder Order { get; } =
        new()
        {
            Id = new("S-1"),
            By = new("lead-01"),
            From = new(2026, 3, 1),
            Targets = [new("golf-greens", "sheet-a", MeasuredQuantity.HeightOfCut, L("3.8 mm"), null)],
            Schools = [new("sheet-a", ContactSchool.AirGap)],
        };

    public static Procedure Procedure { get; } =
        new()
        {
            Id = new("P-1"),
            Title = "Ride-on machine",
            Machines = [new("M-01")],
            Place = WorkPlace.OnMachine,
            Sources = [],
            Controls = new(true, true, true, true),
        };

    public static RuleLibrary Sound { get; } =
        new()
        {
            Packs = [Pack("base", PackLayer.Base, Limit, Step, Height, Taught)],
            Sheets = [new(Sheet, "sheets/a.sheet.json", "")],
            Cases = CasesFor(Limit, Step, Height, Taught),
            Jurisdictions = [],
            Orders = [new(Order, "site/setting-orders/S-1.json", "")],
            Procedures = [new(Procedure, "site/procedures/ride-on.json", "")],
            People =
            [
                new(
                    new(new("lead-01"), true, null, null, MayRelease: true),
                    "site/registers.json",
                    "/people/0"
                ),
            ],
            Locks = [new(new(new("L-1"), new Id<Participant>("lead-01")), "site/registers.json", "/locks/0")],
        };

    public static PlacedPack Pack(string id, PackLayer layer, params Rule[] rules) =>
        new(
            new()
            {
                Id = new(id),
                Version = "1",
                Title = id,
                Layer = layer,
                Rules = [.. rules],
            },
            $"{id}/pack.json",
            [
                .. rules.Select(
                    (rule, index) => new Placed<Rule>(rule, $"{id}/a.rules.json", $"/rules/{index}")
                ),
            ]
        );

    public static ImmutableArray<Placed<ExpectedVerdict>> CasesFor(params Rule[] rules) =>
        [
            .. rules
                .SelectMany(rule => ReachableVerdicts.Of(rule.Check).Select(verdict => (rule, verdict)))
                .Select(
                    (pair, index) =>
                        new Placed<ExpectedVerdict>(
                            new(pair.rule.Id.Text, pair.verdict),
                            "base/a.cases.json",
                            $"/cases/{index}"
                        )
                ),
        ];

    /// <summary>The library with other rules, each with its cases; what else the sheet states is judged as before.</summary>
    public static RuleLibrary With(params Rule[] rules) =>
        Sound with
        {
            Packs = [Pack("base", PackLayer.Base, [.. rules, Height, Taught])],
            Cases = CasesFor([.. rules, Height, Taught]),
        };

    public static RuleLibrary With(LimitSheet sheet) =>
        Sound with
        {
            Sheets = [new(sheet, "sheets/a.sheet.json", "")],
        };

    /// <summary>The library with what its sheet says of the clearance changed.</summary>
    public static RuleLibrary WithClearance(Func<QuantityLimit, QuantityLimit> change) =>
        With(Sheet with { Quantities = Sheet.Quantities.SetItem(0, change(Sheet.Quantities[0])) });

    public static RuleLibrary WithAdjuster(int index, Func<Adjuster, Adjuster> change) =>
        With(Sheet with { Adjusters = Sheet.Adjusters.SetItem(index, change(Sheet.Adjusters[index])) });

    public static RuleLibrary With(SettingOrder order) =>
        Sound with
        {
            Orders = [new(order, "site/setting-orders/S-1.json", "")],
        };

    /// <summary>The base rule, and one of the site in its place.</summary>
    public static RuleLibrary Replaced(Rule below, Rule above) =>
        Sound with
        {
            Packs = [Pack("base", PackLayer.Base, below), Pack("site", PackLayer.Site, above)],
            Cases = CasesFor(below),
        };

    public static Rule Programme =>
        Step with
        {
            Scope = RuleScope.Programme,
            Check = new Check.EnergyControl(EnergyDuty.ProcedureInspected),
            Severity = Severity.Advise,
        };

    public static RuleLibrary Cited(PackLayer layer, string rule, string? precedence = "local codes first")
    {
        var citation = new Citation(new(rule), [], "a text", ["1"], CitationStanding.TextRead);
        var law = Pack("law", layer);
        return Sound with
        {
            Packs =
            [
                .. Sound.Packs,
                law with
                {
                    Pack = law.Pack with { Precedence = precedence, Citations = [citation] },
                    Citations = [new(citation, "law/a.citations.json", "/citations/0")],
                },
            ],
        };
    }

    public static Placed<RegisteredInstrument> Owned(
        string id,
        string resolution,
        string uncertainty,
        MeasuredQuantity measures
    ) =>
        new(
            new(
                new(id),
                InstrumentKind.Calliper,
                PrintedLength.Parse(resolution).OrThrow(),
                PrintedLength.Parse(uncertainty).OrThrow(),
                [measures]
            ),
            "site/registers.json",
            "/instruments/0"
        );
}

using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Json;

namespace ServiceRules.Formats.Tests.Documents;

public sealed class AssessmentFormatTests
{
    private const string Digest = "sha256:0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef";

    [Fact]
    public void Write_AnAssessment_StatesIt()
    {
        JsonNode written = JsonNode.Parse(AssessmentFormat.Current.Write(Sample()))!;
        Assert.Equal("assessment/1", written["format"]!.GetValue<string>());
        Assert.Equal("6", written["semantics"]!.GetValue<string>());
        JsonNode finding = written["findings"]![0]!;
        Assert.Equal("unit/U-1", finding["subject"]!.GetValue<string>());
        Assert.Equal("out-of-limit", finding["reason"]!.GetValue<string>());
        JsonNode comparison = finding["comparisons"]![0]!;
        Assert.Equal("0.0762 mm", comparison["value"]!.GetValue<string>());
        Assert.Equal("0.0123", comparison["probability"]!.ToJsonString());
        Assert.Equal("-0.0254 mm", comparison["margin"]!.GetValue<string>());
        Assert.False(comparison.AsObject().ContainsKey("target"));
        Assert.Equal(-2, finding["remedy"]!["leftSteps"]!.GetValue<int>());
    }

    [Fact]
    public void Read_WhatWasWritten_WritesTheSameBytes()
    {
        byte[] written = AssessmentFormat.Current.Write(Sample());
        bool read = AssessmentFormat
            .Current.Read(written)
            .TryGet(out Assessment? again, out ProblemReport problems);
        Assert.True(read, problems.ToString());
        Assert.Equal(written, AssessmentFormat.Current.Write(again!));
        Assert.Equal(9, again!.Findings.Length);
        Assert.Equal(new Subject.Set(), again.Findings[1].Subject);
        Assert.Equal(Length.FromMillimetres(0.0762m), again.Findings[0].Comparisons[0].Value);
        Assert.Equal(new Remedy.CannotBeTurnedIn("bow", "grind"), again.Findings[4].Remedy);
    }

    [Fact]
    public void Read_AnotherSemantics_IsRefused()
    {
        string text = Encoding.UTF8.GetString(AssessmentFormat.Current.Write(Sample()));
        byte[] later = Encoding.UTF8.GetBytes(
            text.Replace("\"semantics\": \"6\"", "\"semantics\": \"5\"", StringComparison.Ordinal)
        );
        Assert.False(AssessmentFormat.Current.Read(later).TryGet(out _, out ProblemReport problems));
        Assert.Equal("/semantics", Assert.Single(problems.Told).Pointer);
    }

    [Fact]
    public void Read_ComparisonWithItsBudget_IsTheSameBudget()
    {
        StatedBudget budget = StatedBudget.Of(
            UncertaintyBudget
                .Of(
                    UncertaintyContribution.Calibration(Mm(0.020m), 2m),
                    UncertaintyContribution.Repeatability(Mm(0.010m), DegreesOfFreedom.Of(1), 1)
                )
                .Around(Mm(1m))
        );
        Assessment sample = Sample();
        Finding first = sample.Findings[0];
        byte[] written = AssessmentFormat.Current.Write(
            sample with
            {
                Findings = sample.Findings.SetItem(
                    0,
                    first with
                    {
                        Comparisons = [first.Comparisons[0] with { Budget = budget }],
                    }
                ),
            }
        );

        // docs/uncertainty.md: u = 0.0141422 on 4 degrees; the study by itself, on one degree, comes to more.
        JsonNode stated = JsonNode.Parse(written)!["findings"]![0]!["comparisons"]![0]!["budget"]!;
        Assert.Equal("0.0141422 mm", stated["combined"]!.GetValue<string>());
        Assert.Equal(4m, stated["degreesOfFreedom"]!.GetValue<decimal>());
        Assert.Equal("95.45 %", stated["level"]!.GetValue<string>());
        Assert.Equal("0.1396774 mm", stated["expanded"]!.GetValue<string>());
        Assert.Equal("0.01 mm", stated["restsOn"]!["combined"]!.GetValue<string>());
        Assert.False(stated["contributions"]![0]!["counted"]!.GetValue<bool>());
        Assert.False(stated["contributions"]![0]!.AsObject().ContainsKey("degreesOfFreedom"));

        Assert.True(
            AssessmentFormat.Current.Read(written).TryGet(out Assessment? again, out ProblemReport problems),
            problems.ToString()
        );
        Assert.Equal(budget, again!.Findings[0].Comparisons[0].Budget);
        Assert.Equal(written, AssessmentFormat.Current.Write(again));
        Assert.False(
            AssessmentFormat
                .Current.Read(
                    Encoding.UTF8.GetBytes(
                        Encoding
                            .UTF8.GetString(written)
                            .Replace("\"0.0141422 mm\"", "\"-1 mm\"", StringComparison.Ordinal)
                    )
                )
                .TryGet(out _, out _)
        );
    }

    private static Assessment Sample() =>
        new()
        {
            Record = new("J-1"),
            State = RecordState.SignedOff,
            Digests = new(Digest, Digest, Digest),
            Job = new(Disposition.Hold, ["clearance-within-limits"]),
            Set = new(Disposition.Release, []),
            Units = [new(new("U-1"), new(Disposition.Hold, ["clearance-within-limits"]))],
            Findings =
            [
                Finding(
                    new Subject.Unit(new("U-1")),
                    new Remedy.Turn(
                        AdjusterKind.Clearance,
                        -2,
                        -1,
                        [new(Side.Left, false), new(Side.Right, false), new(Side.Left, false)],
                        [
                            new("left end", Length.FromInches(0.003m), Length.FromInches(0.002m))
                            {
                                BeforeDoubt = Mm(0.002m),
                                AfterDoubt = Mm(0.003m),
                            },
                        ],
                        [MeasuredQuantity.HeightOfCut]
                    )
                    {
                        LearnedStep = Mm(0.01m),
                        LearnedStepDoubt = Mm(0.001m),
                        ReadAfter = 2,
                        IsLeast = true,
                    }
                ),
                Finding(
                    new Subject.Set(),
                    new Remedy.Move(AdjusterKind.Height, Mm(0.1m), Mm(-0.05m), [])
                    {
                        LeftTurns = new(1, 8, Mm(0.09m)),
                        LearnedPart = Mm(0.09m),
                    }
                ),
                Finding(new Subject.Job(), new Remedy.Act("sign off")),
                Finding(
                    new Subject.Job(),
                    new Remedy.OpenUntilFree(AdjusterKind.Clearance, 2, [MeasuredQuantity.Edge])
                ),
                Finding(new Subject.Job(), new Remedy.CannotBeTurnedIn("bow", "grind")),
                Finding(
                    new Subject.Job(),
                    new Remedy.CannotBeTurnedIn("steps", "shim")
                    {
                        Nearest = new(AdjusterKind.Clearance, 2, -1, "right end", Mm(0.004m), true)
                        {
                            Doubt = Mm(0.003m),
                        },
                    }
                ),
                Finding(
                    new Subject.Set(),
                    new Remedy.MoveUnits(
                        AdjusterKind.Height,
                        [
                            new("U-2", Mm(0.2m), Mm(0.1m))
                            {
                                LeftTurns = new(3, 8, Mm(0.1875m)),
                                RightTurns = new(2, 8, Mm(0.125m)),
                            },
                        ],
                        ["U-1"]
                    )
                ),
                Finding(
                    new Subject.Job(),
                    new Remedy.ReadAgain(MeasuredQuantity.Clearance, ["51 mm"], "stale")
                ),
                Finding(new Subject.Job(), null),
            ],
        };

    private static Finding Finding(Subject subject, Remedy? remedy) =>
        new()
        {
            Rule = "clearance-within-limits",
            Subject = subject,
            Verdict = Verdict.NotMet,
            Severity = Severity.Hold,
            Effect = Effect.Hold,
            Reason = FindingReason.OutOfLimit,
            Statement = "gap 0.003 in at the left end, at most 0.002 in",
            Comparisons =
            [
                new()
                {
                    Quantity = MeasuredQuantity.Clearance,
                    Place = "left end",
                    Verdict = Verdict.NotMet,
                    Reason = FindingReason.OutOfLimit,
                    Value = Length.FromInches(0.003m),
                    KnownLower = Mm(0.07m),
                    KnownUpper = Mm(0.08m),
                    Uncertainty = Mm(0.005m),
                    LowerLimit = Mm(0.0127m),
                    UpperLimit = Mm(0.0508m),
                    AcceptLower = Mm(0.0177m),
                    AcceptUpper = Mm(0.0458m),
                    Probability = 0.0123m,
                    Margin = Length.FromInches(-0.001m),
                },
            ],
            Evidence = ["/units/0/entries/3", ""],
            Remedy = remedy,
            LetOut = "released by lead-01",
            Notices = ["between the two prints"],
        };

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);
}

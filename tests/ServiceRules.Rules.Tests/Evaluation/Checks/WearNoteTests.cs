using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Notes on what is left, beside the limits of parts that wear.</summary>
public class WearNoteTests
{
    private static readonly Basis Site = new(BasisKind.SitePolicy, null, null);

    private static readonly LimitSheet Stated = Sheet with
    {
        Quantities =
        [
            Limit(MeasuredQuantity.ReelDiameter) with
            {
                Lower = D("118.11 mm"),
            },
            Limit(MeasuredQuantity.BedknifeLip) with
            {
                Lower = D("4.8 mm"),
            },
            Limit(MeasuredQuantity.LandWidth) with
            {
                Upper = D("3.0 mm"),
            },
            Limit(MeasuredQuantity.ShieldGap) with
            {
                Lower = D("1.0 mm"),
                Upper = D("3.0 mm"),
            },
            Limit(MeasuredQuantity.HeightOfCut),
            Limit(MeasuredQuantity.GroomerHeight),
        ],
        Wear = new()
        {
            ReelPerGrind = D("0.75 mm"),
            ReelPerHour = WearRate.Parse("0.0034 mm/h").OrThrow(),
            LipPerFacing = D("0.1 mm"),
            ReliefAngle = Angle.Parse("30 deg").OrThrow(),
            Basis = Site,
        },
    };

    // F25 of the trade reference: 125.61 mm above 118.11 mm at 0.75 mm a grind, 0.0034 mm/h: 10 grinds, 2206 h (2205.9).
    [Fact]
    public void Evaluate_ReelAboveItsLimit_TellsGrindsAndHours() =>
        Assert.Equal(
            [
                "7.50 mm of diameter left above the limit of 118.11 mm: about 10 grinds at 0.75 mm from grind to grind, or "
                    + "about 2205 h at 0.0034 mm/h, grinding aside (derived; rates of the site)",
            ],
            Notices(Stated, MeasuredQuantity.ReelDiameter, Read(MeasuredQuantity.ReelDiameter, "125.61 mm"))
        );

    [Fact]
    public void Evaluate_ReelInInches_TellsInches() =>
        Assert.Equal(
            [
                "0.296 in of diameter left above the limit of 4.650 in: about 10 grinds at 0.02953 in from grind to grind, or "
                    + "about 2211 h at 0.000134 in/h, grinding aside (derived; rates of the site)",
            ],
            Notices(Stated, MeasuredQuantity.ReelDiameter, Read(MeasuredQuantity.ReelDiameter, "4.946 in"))
        );

    [Theory]
    [InlineData("118.85 mm", ": less than one grind at")]
    [InlineData("118.86 mm", "about 1 grind at")]
    [InlineData("119.61 mm", "about 2 grinds at")]
    public void Evaluate_FewGrindsLeft_AreCountedWhole(string diameter, string told) =>
        Assert.Contains(
            told,
            Assert.Single(
                Notices(Stated, MeasuredQuantity.ReelDiameter, Read(MeasuredQuantity.ReelDiameter, diameter))
            ),
            StringComparison.Ordinal
        );

    [Fact]
    public void Evaluate_ReelAtItsLimit_TellsNothing() =>
        Assert.Empty(
            Notices(Stated, MeasuredQuantity.ReelDiameter, Read(MeasuredQuantity.ReelDiameter, "118.11 mm"))
        );

    [Fact]
    public void Evaluate_SheetWithoutRates_GoesByTheGrindOfTheRecord()
    {
        var bare = Stated with { Wear = null };

        Assert.Empty(
            Notices(bare, MeasuredQuantity.ReelDiameter, Read(MeasuredQuantity.ReelDiameter, "125.61 mm"))
        );
        Assert.Equal(
            [
                "7.50 mm of diameter left above the limit of 118.11 mm: about 15 grinds at the 0.50 mm that this grind took, "
                    + "wear between grinds not counted (derived)",
            ],
            Notices(bare, MeasuredQuantity.ReelDiameter, Ground("126.11 mm", "125.61 mm"))
        );
    }

    // F27: 5.4 mm above 4.8 mm at 0.1 mm: 6 facings.
    [Fact]
    public void Evaluate_LipAboveItsLimit_TellsFacings() =>
        Assert.Equal(
            ["0.60 mm of lip left above the limit of 4.80 mm: 6 facings at 0.10 mm each (rates of the site)"],
            Notices(Stated, MeasuredQuantity.BedknifeLip, Read(MeasuredQuantity.BedknifeLip, "5.4 mm"))
        );

    // F26: 1.5 mm below 3.0 mm at 30 degrees: 1.73 mm of diameter, two whole grinds of 0.75 mm.
    [Fact]
    public void Evaluate_LandBelowItsLimit_TellsWhenReliefIsDue() =>
        Assert.Equal(
            [
                "the land reaches its limit of 3.00 mm after about 1.73 mm more of reel diameter, about 2 grinds, at a relief of "
                    + "30 deg from the tangent (derived; rates of the site): grind relief before then",
            ],
            Notices(Stated, MeasuredQuantity.LandWidth, Read(MeasuredQuantity.LandWidth, "1.5 mm"))
        );

    // F29: 1.5 mm, and a reel from 127.0 to 124.5 mm: 2.75 mm. The gaps may be off by 0.013013 mm each, the diameters, of which
    // only the digits are known, by 2 · 0.1/√12 = 0.057735 mm, half of each in the gap: 0.0838 mm together.
    [Theory]
    [InlineData("2.75 mm", null)]
    [InlineData("2.67 mm", null)]
    [InlineData("1.50 mm", "1.50 mm was read: copied, set anew without a note, or misread")]
    [InlineData("2.66 mm", "2.66 mm was read: copied, set anew without a note, or misread")]
    public void Evaluate_ShieldReadAfterAGrind_IsHeldAgainstWhatFollows(string now, string? told)
    {
        var notices = Notices(
            Stated,
            MeasuredQuantity.ShieldGap,
            Read(MeasuredQuantity.ShieldGap, "1.5 mm"),
            Ground("127.0 mm", "124.5 mm"),
            Read(MeasuredQuantity.ShieldGap, now)
        );

        Assert.Equal(
            told is null
                ? []
                :
                [
                    "the shield was not touched and the reel lost 2.50 mm: a gap of 1.50 mm should now be 2.75 mm (derived), and "
                        + told,
                ],
            notices
        );
    }

    [Fact]
    public void Evaluate_ShieldNotReadAfterAGrind_IsForetold() =>
        Assert.Equal(
            [
                "the shield was not touched and the reel lost 2.50 mm: a gap of 1.50 mm should now be 2.75 mm (derived)",
            ],
            Notices(
                Stated,
                MeasuredQuantity.ShieldGap,
                Read(MeasuredQuantity.ShieldGap, "1.5 mm"),
                Ground("127.0 mm", "124.5 mm")
            )
        );

    [Fact]
    public void Evaluate_ShieldSetAnew_IsNotForetold() =>
        Assert.Empty(
            Notices(
                Stated,
                MeasuredQuantity.ShieldGap,
                Read(MeasuredQuantity.ShieldGap, "1.5 mm"),
                Ground("127.0 mm", "124.5 mm"),
                Moved(AdjusterKind.Shield),
                Read(MeasuredQuantity.ShieldGap, "1.5 mm")
            )
        );

    [Theory]
    [InlineData("3.20 mm", "0.80 mm below the cut, 20 % of the height")]
    [InlineData("3.80 mm", "0.20 mm below the cut, 5 % of the height")]
    [InlineData("3.81 mm", null)]
    public void Evaluate_GroomerBelowTheCut_TellsHowDeep(string groomer, string? told)
    {
        var check = new Check.Relation(
            MeasuredQuantity.GroomerHeight,
            QuantityRelation.NotAbove,
            MeasuredQuantity.HeightOfCut,
            D("0.10 mm")
        );

        var outcome = Judge(
            check,
            Framed(
                Stated,
                Read(MeasuredQuantity.HeightOfCut, "4.00 mm"),
                Read(MeasuredQuantity.GroomerHeight, groomer)
            )
        );

        if (told is null)
        {
            Assert.Empty(outcome.Notices);
        }
        else
        {
            Assert.Contains(told, Assert.Single(outcome.Notices), StringComparison.Ordinal);
        }
    }

    private static string[] Notices(
        LimitSheet sheet,
        MeasuredQuantity quantity,
        params BenchEntry[] entries
    ) =>
        [
            .. Judge(
                new Check.LimitOnQuantity(quantity, LimitSource.Sheet, CheckedPlaces.Stations),
                Framed(sheet, entries)
            ).Notices,
        ];

    private static JobFrame Framed(LimitSheet sheet, params BenchEntry[] entries) =>
        FrameBuilder.Build(Record(Unit(entries)), Context, Book(sheet));

    private static QuantityLimit Limit(MeasuredQuantity quantity) =>
        new() { Quantity = quantity, Basis = Site };

    private static Reading Read(MeasuredQuantity quantity, string value) => Measured(quantity, null, value);

    private static Grinding Ground(string before, string after) =>
        new()
        {
            Kind = GrindingKind.ReelSpin,
            Before = L(before),
            After = L(after),
        };

    /// <summary>Read in both units it is held to both prints: what is left is left above the stricter, 4.81 in.</summary>
    [Fact]
    public void Evaluate_ReelReadInBothUnits_TellsWhatIsLeftAboveTheStricterPrint()
    {
        var both = Stated with
        {
            Quantities = [Limit(MeasuredQuantity.ReelDiameter) with { Lower = D("122 mm", "4.81 in") }],
        };

        var told = Assert.Single(
            Notices(
                both,
                MeasuredQuantity.ReelDiameter,
                Read(MeasuredQuantity.ReelDiameter, "124.00 mm"),
                Read(MeasuredQuantity.ReelDiameter, "4.8819 in")
            ),
            notice => notice.Contains("of diameter left", StringComparison.Ordinal)
        );

        Assert.Contains("above the limit of 122.174 mm", told, StringComparison.Ordinal);
    }
}

using System.Globalization;
using FsCheck.Xunit;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>
/// Part of the way, where more could touch: the nearest by the figures that are told, of what is sure not to touch. Adjusters at -10 and
/// 520 mm, finished by opening, stations at 25 and 485 mm; a step is 0.0005 in, at most 0.00055 in; feelers hold 0.0001 in; between the
/// feelers of 0.001 and 0.0015 in is aimed for.
/// </summary>
public class NearestTurnTests
{
    private const decimal Inch = 25.4m;
    private const decimal Thousandth = Inch / 1000m;
    private const int Furthest = 16;

    private static readonly Check Taught = new Check.ProceduralLimit(MeasuredQuantity.Clearance);

    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    internal static LimitSheet Bench { get; } =
        Sheet with
        {
            Adjusters =
            [
                .. Sheet.Adjusters.Select(each =>
                    each.Kind is AdjusterKind.Clearance
                        ? each with
                        {
                            Step = D("0.0005 in"),
                            LeftAt = L("-10 mm"),
                            RightAt = L("520 mm"),
                            Finish = FinishDirection.Opening,
                        }
                        : each
                ),
            ],
            Quantities =
            [
                .. Sheet.Quantities.Select(each =>
                    each.Quantity is MeasuredQuantity.Clearance
                        ? each with
                        {
                            LeftStation = L("25 mm"),
                            RightStation = L("485 mm"),
                            Upper = D("0.002 in", "0.050 mm"),
                        }
                        : each
                ),
            ],
        };

    internal static CheckOutcome OnBench(Check check, params BenchEntry[] entries) =>
        Judge(check, FrameBuilder.Build(Record(Unit(entries)), Context, Book(Bench)));

    internal static BenchEntry[] Between(string station, string passes, string stops, int? blade = null) =>
        [
            Feeler(station, passes, passes: true) with
            {
                Blade = blade,
            },
            Feeler(station, stops, passes: false) with
            {
                Blade = blade,
            },
        ];

    /// <summary>
    /// Left between 0.003 and 0.004 in, right as taught. Four steps on the left leave 0.00163 in at 25 mm and 0.00112 in at 485 mm; on
    /// the way, five closed, 0.00297 - 5 x 0.00055 x 520/530 = 0.00027 in at the left end. A fifth would touch, and no step on the right
    /// betters the left.
    /// </summary>
    [Fact]
    public void Evaluate_OneSideTooWideByMoreThanFeelersTell_ClosesThatSideAsFarAsIsSure()
    {
        var turn = Assert.IsType<Remedy.Turn>(
            OnBench(
                Taught,
                [.. Between("left", "0.003 in", "0.004 in"), .. Between("right", "0.001 in", "0.0015 in")]
            ).Remedy
        );

        Assert.True(turn.IsLeast);
        Assert.Equal((-4, 0), (turn.LeftSteps, turn.RightSteps));
        var still = Assert.Single(turn.StillOut, place => place.Place == "25 mm");
        Assert.Equal(0.00163m, Math.Round(still.After.Millimetres / Inch, 5));
        Assert.DoesNotContain(turn.StillOut, place => place.Place == "485 mm");
    }

    /// <summary>Left between 0.0015 and 0.0025 in, right as taught: one step on the left, none on the right, which is where it should be.</summary>
    [Fact]
    public void Evaluate_OneSideALittleTooWide_IsTheSideThatIsTurned()
    {
        var turn = Assert.IsType<Remedy.Turn>(
            OnBench(
                Taught,
                [.. Between("left", "0.0015 in", "0.0025 in"), .. Between("right", "0.001 in", "0.0015 in")]
            ).Remedy
        );

        Assert.Equal((-1, 0), (turn.LeftSteps, turn.RightSteps));
    }

    /// <summary>
    /// 0.149, 0.123 and 0.096 mm: nine and five steps leave 0.0381, 0.0341 and 0.0292 mm, where nine and four leave 0.041 mm; on the
    /// way, ten and six closed, more than nothing at both ends.
    /// </summary>
    [Fact]
    public void Evaluate_LengthsWhoseWayIsNarrow_LeaveAsLittleAsIsSure()
    {
        var turn = Assert.IsType<Remedy.Turn>(
            OnBench(
                Limit,
                Measured(MeasuredQuantity.Clearance, "left", "0.149 mm", "DG-01"),
                Measured(MeasuredQuantity.Clearance, "middle", "0.123 mm", "DG-01"),
                Measured(MeasuredQuantity.Clearance, "right", "0.096 mm", "DG-01")
            ).Remedy
        );

        Assert.Equal((-9, -5), (turn.LeftSteps, turn.RightSteps));
    }

    /// <summary>
    /// 2.7 mm is more than 200 steps, and so many steps of 0.00055 in would touch: as of a gap a little less wide, a part of the way is
    /// told, and what binds.
    /// </summary>
    [Theory]
    [InlineData("2.700 mm", true)]
    [InlineData("2.500 mm", false)]
    public void Evaluate_GapWiderThanEverTurned_TellsAPartAndToLookAtTheSeat(string gap, bool isBeyond)
    {
        var turn = Assert.IsType<Remedy.Turn>(
            OnBench(
                Limit,
                Measured(MeasuredQuantity.Clearance, "left", gap, "DG-01"),
                Measured(MeasuredQuantity.Clearance, "right", gap, "DG-01")
            ).Remedy
        );

        Assert.True(turn is { IsLeast: true, LeftSteps: < -150 });
        Assert.Equal(
            isBeyond,
            turn.Binds
                == "that all of the way takes more than 200 steps of a side, more than is ever asked of an adjuster: see first how the unit sits"
        );
    }

    /// <summary>
    /// Feelers at both stations, each pair up to 0.0035 in apart: what is told as the nearest leaves no more, by the middles and by the
    /// line through them, than any other steps that are sure not to touch, counted here on its own; and no single step told touches.
    /// </summary>
    [Property(MaxTest = 1_000)]
    public void Evaluate_WhateverFeelersTell_NothingThatIsSureNotToTouchComesNearer(
        byte left,
        byte leftApart,
        byte right,
        byte rightApart
    )
    {
        var (leftFrom, leftTo) = Pair(left, leftApart);
        var (rightFrom, rightTo) = Pair(right, rightApart);
        var outcome = OnBench(
            Taught,
            [.. Between("left", In(leftFrom), In(leftTo)), .. Between("right", In(rightFrom), In(rightTo))]
        );
        if (outcome.Remedy is not Remedy.Turn turn)
        {
            return;
        }

        var gaps = new Gaps((leftFrom, leftTo), (rightFrom, rightTo));
        Assert.True(gaps.StaysClear(turn.Sequence), $"{turn.LeftSteps}, {turn.RightSteps}");
        if (turn.IsLeast)
        {
            var least = gaps.Nearest();
            Assert.True(
                gaps.Excess(turn.LeftSteps, turn.RightSteps) <= least + 0.000000001m,
                $"{In(leftFrom)} {In(leftTo)} | {In(rightFrom)} {In(rightTo)}: {turn.LeftSteps}, {turn.RightSteps} leaves {gaps.Excess(turn.LeftSteps, turn.RightSteps)}, {least} can be had"
            );
        }
    }

    /// <summary>In half thousandths of an inch.</summary>
    private static (int From, int To) Pair(byte from, byte apart) =>
        (1 + (from % 14), 2 + (from % 14) + (apart % 7));

    private static string In(int halves) => (halves * 0.0005m).ToString(CultureInfo.InvariantCulture) + " in";

    /// <summary>The gaps in millimetres, by plain arithmetic and with no code of the product.</summary>
    private sealed class Gaps
    {
        private const decimal Step = Thousandth / 2;
        private const decimal Most = 0.55m * Thousandth;
        private const decimal Least = 0.45m * Thousandth;

        private readonly List<(decimal At, decimal Middle, decimal Lower)> places = [];

        public Gaps((int From, int To) left, (int From, int To) right)
        {
            var (leftLow, leftHigh) = Bounds(left);
            var (rightLow, rightHigh) = Bounds(right);
            foreach (var at in new[] { 0m, 25m, 485m, 510m })
            {
                var share = (at - 25m) / 460m;
                places.Add(
                    (
                        at,
                        ((1 - share) * (leftLow + leftHigh) / 2) + (share * (rightLow + rightHigh) / 2),
                        ((1 - share) * (1 - share > 0 ? leftLow : leftHigh))
                            + (share * (share > 0 ? rightLow : rightHigh))
                    )
                );
            }
        }

        private static (decimal, decimal) Bounds((int From, int To) pair) =>
            (((pair.From * 0.5m) - 0.1m) * Thousandth, ((pair.To * 0.5m) + 0.1m) * Thousandth);

        /// <summary>By how much the worst place would lie outside 0.001 to 0.0015 in.</summary>
        public decimal Excess(int left, int right) => places.Max(place => ExcessAt(place, left, right));

        private static decimal ExcessAt((decimal At, decimal Middle, decimal) place, int left, int right)
        {
            var then =
                place.Middle + (Step * ((left * (520m - place.At)) + (right * (place.At + 10m))) / 530m);
            return Math.Max(0, Math.Max(Thousandth - then, then - (1.5m * Thousandth)));
        }

        public decimal Nearest()
        {
            var settings = (
                from left in Enumerable.Range(-Furthest, (2 * Furthest) + 1)
                from right in Enumerable.Range(-Furthest, (2 * Furthest) + 1)
                orderby Excess(left, right)
                select (left, right)
            ).ToList();
            var isIn = places.FindAll(place => place.At is 25m or 485m && ExcessAt(place, 0, 0) == 0);
            var kept = settings.Where(s =>
                isIn.TrueForAll(place => ExcessAt(place, s.left, s.right) < 0.000000001m)
            );
            var best = Reached(kept);
            return best < Excess(0, 0) - 0.000000001m || (best is not null && Touches((0, 0), (0, 0)))
                ? best.Value
                : Reached(settings)!.Value;
        }

        private decimal? Reached(IEnumerable<(int Left, int Right)> settings) =>
            settings
                .Where(s => IsReached(s.Left, s.Right))
                .Select(s => (decimal?)Excess(s.Left, s.Right))
                .FirstOrDefault();

        public bool StaysClear(IEnumerable<SingleStep> sequence)
        {
            var (left, right) = ((Opened: 0, Closed: 0), (Opened: 0, Closed: 0));
            var touched = Touches(left, right);
            foreach (var step in sequence)
            {
                var before = (left, right);
                (left, right) =
                    step.Side is Side.Left
                        ? (Then(left, step.Opens), right)
                        : (left, Then(right, step.Opens));
                if (Touches(left, right) && (!touched || Deepens(before, (left, right))))
                {
                    return false;
                }

                touched = Touches(left, right);
            }

            return !touched;
        }

        private static (int Opened, int Closed) Then((int Opened, int Closed) side, bool opens) =>
            opens ? (side.Opened + 1, side.Closed) : (side.Opened, side.Closed + 1);

        private bool Touches((int Opened, int Closed) left, (int Opened, int Closed) right) =>
            places.Exists(place => Lowest(place, left, right) < 0);

        private bool Deepens(
            ((int Opened, int Closed) Left, (int Opened, int Closed) Right) before,
            ((int Opened, int Closed) Left, (int Opened, int Closed) Right) after
        ) =>
            places.Exists(place =>
                Lowest(place, after.Left, after.Right) < 0
                && Lowest(place, after.Left, after.Right) < Lowest(place, before.Left, before.Right)
            );

        private static decimal Lowest(
            (decimal At, decimal, decimal Lower) place,
            (int Opened, int Closed) left,
            (int Opened, int Closed) right
        ) =>
            place.Lower
            + (
                (
                    ((520m - place.At) * ((left.Opened * Least) - (left.Closed * Most)))
                    + ((place.At + 10m) * ((right.Opened * Least) - (right.Closed * Most)))
                ) / 530m
            );

        /// <summary>Whether some order of single steps gets there; a side that closes goes one step too far and comes back.</summary>
        private bool IsReached(int left, int right)
        {
            var (leftAt, rightAt) = (States(left), States(right));
            var reached = new HashSet<(int, int)> { (0, 0) };
            for (var i = 0; i < leftAt.Count; i++)
            {
                for (var j = 0; j < rightAt.Count; j++)
                {
                    var byLeft =
                        reached.Contains((i - 1, j))
                        && IsPermitted(leftAt[i - 1], rightAt[j], leftAt[i], rightAt[j]);
                    var byRight =
                        reached.Contains((i, j - 1))
                        && IsPermitted(leftAt[i], rightAt[j - 1], leftAt[i], rightAt[j]);
                    if (byLeft || byRight)
                    {
                        reached.Add((i, j));
                    }
                }
            }

            return reached.Contains((leftAt.Count - 1, rightAt.Count - 1))
                && !Touches(leftAt[^1], rightAt[^1]);
        }

        private bool IsPermitted(
            (int, int) fromLeft,
            (int, int) fromRight,
            (int, int) toLeft,
            (int, int) toRight
        ) =>
            places.TrueForAll(place =>
                Lowest(place, toLeft, toRight) >= 0
                || (
                    Lowest(place, fromLeft, fromRight) < 0
                    && Lowest(place, toLeft, toRight) >= Lowest(place, fromLeft, fromRight)
                )
            );

        private static List<(int Opened, int Closed)> States(int steps)
        {
            List<(int Opened, int Closed)> states = [(0, 0)];
            for (var closed = 1; closed <= -steps + 1 && steps < 0; closed++)
            {
                states.Add((0, closed));
            }

            if (steps < 0)
            {
                states.Add((1, -steps + 1));
            }

            for (var opened = 1; opened <= steps; opened++)
            {
                states.Add((opened, 0));
            }

            return states;
        }
    }

    /// <summary>
    /// 0.011 ± 0.0024 mm where 0.012 mm is the least: more likely out than in, and turned as a height would be. 0.0135 mm is more
    /// likely in: it is read again.
    /// </summary>
    [Theory]
    [InlineData("0.0110 mm", true)]
    [InlineData("0.0135 mm", false)]
    public void Evaluate_AClearanceThatIsLikelyOut_IsTurnedWithoutBeingProven(string right, bool isTurned)
    {
        var outcome = Judge(
            new Check.LimitOnQuantity(MeasuredQuantity.Clearance, LimitSource.Sheet, CheckedPlaces.Stations),
            Measured(MeasuredQuantity.Clearance, "left", "0.030 mm", "DG-01"),
            Measured(MeasuredQuantity.Clearance, "right", right, "DG-01")
        );

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        if (isTurned)
        {
            var turn = Assert.IsType<Remedy.Turn>(outcome.Remedy);
            Assert.Equal((0, true), (turn.LeftSteps, turn.RightSteps > 0));
        }
        else
        {
            Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
        }
    }
}

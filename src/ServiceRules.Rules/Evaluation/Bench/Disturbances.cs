using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// What a run of bench entries did to every quantity, by the limit sheet. Entries may be added in any order: only
/// totals count. Steps are counted per side without regard to direction, and the side that may have shifted more counts, so
/// that both sides turned by one step each is one step however it was written down.
/// </summary>
internal sealed class Disturbances(LimitSheet sheet, ShiftsInForce shifts)
{
    /// <summary>By the sheet alone.</summary>
    public Disturbances(LimitSheet sheet)
        : this(sheet, ShiftsInForce.OfSheet) { }

    private readonly Dictionary<AdjusterKind, Turned> turned = [];
    private readonly HashSet<MeasuredQuantity> voided = [];
    private Dictionary<MeasuredQuantity, Effect>? effects;

    public void Add(BenchEntry entry)
    {
        switch (entry)
        {
            case Adjustment adjustment:
                turned[adjustment.Adjuster] = turned
                    .GetValueOrDefault(adjustment.Adjuster)
                    .And(adjustment, sheet, shifts);
                break;
            case Grinding grinding:
                voided.UnionWith(VoidedReadings.By(grinding.Kind));
                break;
            case PartFitted fitted:
                voided.UnionWith(VoidedReadings.By(fitted.Part));
                break;
            default:
                return;
        }

        effects = null;
    }

    public Effect On(MeasuredQuantity quantity) => (effects ??= Effects()).GetValueOrDefault(quantity);

    private Dictionary<MeasuredQuantity, Effect> Effects()
    {
        Dictionary<MeasuredQuantity, Effect> found = [];
        Queue<(MeasuredQuantity Quantity, AdjusterKind? Cause)> stale = new(
            voided.Order().Select(quantity => (quantity, (AdjusterKind?)null))
        );
        foreach (var (kind, amount) in turned.OrderBy(item => item.Key))
        {
            var own = AdjustedQuantity.SetBy(kind);
            found[own] = found.GetValueOrDefault(own) with { TurnedItself = true };
            if (kind == AdjusterKind.HeightRange)
            {
                stale.Enqueue((own, kind));
                stale.Enqueue((MeasuredQuantity.FrontRoller, kind));
            }

            foreach (var disturbance in DisturbedBy(kind))
            {
                Length? ShiftBy(bool isDoubted) =>
                    amount.ShiftOf(disturbance, side => shifts.PerStep(kind, side, disturbance, isDoubted));

                if (ShiftBy(isDoubted: false) is { } shift && ShiftBy(isDoubted: true) is { } doubted)
                {
                    found[disturbance.Quantity] = found
                        .GetValueOrDefault(disturbance.Quantity)
                        .WidenedBy(shift, doubted);
                }
                else
                {
                    stale.Enqueue((disturbance.Quantity, kind));
                }
            }
        }

        Close(found, stale);
        return found;
    }

    /// <summary>
    /// Staleness is transitive: a quantity made stale by anything but its own fine adjuster takes along whatever that
    /// adjuster disturbs. What its own adjuster disturbs is already counted, step by step.
    /// </summary>
    private void Close(
        Dictionary<MeasuredQuantity, Effect> found,
        Queue<(MeasuredQuantity Quantity, AdjusterKind? Cause)> stale
    )
    {
        HashSet<(MeasuredQuantity, AdjusterKind?)> seen = [];
        while (stale.TryDequeue(out var next))
        {
            if (!seen.Add(next))
            {
                continue;
            }

            found[next.Quantity] = found.GetValueOrDefault(next.Quantity) with { IsStale = true };
            if (AdjustedQuantity.FinelySetBy(next.Quantity) is { } finely && finely != next.Cause)
            {
                foreach (var disturbance in DisturbedBy(finely))
                {
                    stale.Enqueue((disturbance.Quantity, next.Cause));
                }
            }
        }
    }

    private ImmutableArray<Disturbance> DisturbedBy(AdjusterKind kind) => sheet.Of(kind)?.Disturbs ?? [];

    /// <summary>What happened to readings of one quantity.</summary>
    /// <param name="IsStale">Something else made them void.</param>
    /// <param name="TurnedItself">The adjuster of the quantity itself was turned.</param>
    /// <param name="Shift">By how much, at most, the value may have moved either way.</param>
    /// <param name="DoubtedShift">The same for readings that prove nothing met, whatever the gauge that told it.</param>
    internal readonly record struct Effect(bool IsStale, bool TurnedItself, Length Shift, Length DoubtedShift)
    {
        public bool IsNone =>
            !IsStale && !TurnedItself && Shift == Length.Zero && DoubtedShift == Length.Zero;

        public Effect WidenedBy(Length shift, Length doubted) =>
            this with
            {
                Shift = Shift + shift,
                DoubtedShift = DoubtedShift + doubted,
            };
    }

    /// <summary>How far one adjuster was turned, in steps per side; not countable when an amount is not known in steps.</summary>
    private readonly record struct Turned(int Left, int Right, bool Uncountable)
    {
        public Turned And(Adjustment adjustment, LimitSheet sheet, ShiftsInForce shifts)
        {
            if (
                BenchSteps.CountOf(adjustment, sheet) is not { } steps
                || (
                    adjustment.Amount is AdjustmentAmount.Distance
                    && shifts.Uncounted.Contains(adjustment.Adjuster)
                )
            )
            {
                return this with { Uncountable = true };
            }

            return new(
                Left + (adjustment.Side is Side.Right ? 0 : steps),
                Right + (adjustment.Side is Side.Left ? 0 : steps),
                Uncountable
            );
        }

        /// <summary>
        /// The most that the value may have moved, by the side that may have moved it more; none when readings are void.
        /// </summary>
        public Length? ShiftOf(Disturbance disturbance, Func<Side, Length?> perStep) =>
            Uncountable || Math.Max(Left, Right) > disturbance.StaleAfterSteps ? null
            : perStep(Side.Left) * Left is { } left && perStep(Side.Right) * Right is { } right
                ? Length.Max(left, right)
            : null;
    }
}

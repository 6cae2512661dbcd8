using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Checks on how a unit mows.</summary>
internal static class MowingKinds
{
    /// <summary>
    /// The height that each clip needs is forward millimetres a minute over cuts a minute, over the ratio; every height
    /// must reach it.
    /// </summary>
    public static Possible Clip(Facts facts, UnitWork unit, Check.Clip check, RuleDecision decision)
    {
        if (Speeds(facts, unit) is not { } speeds)
        {
            return Possible.NotApplicable;
        }

        if (speeds.Forward is not { } forward || speeds.Turns is not { } turns)
        {
            return Possible.Unproven;
        }

        var sheet = facts.Book.Sheet(unit.Sheet)!;
        decimal least = forward / (turns * sheet.Blades) / check.Ratio;
        if (facts.Record.Machine.Tested?.EffectiveHeight is { } prism)
        {
            // Whether anything moved the height since is for the bench log to say.
            return unit.Entries.All(e => e is Reading)
                ? OnTurf(prism.Value.Millimetres, (decimal)Gauges.Shown(null, prism), least, decision)
                : Possible.Judged;
        }

        var spots = new Spots(facts, unit, MeasuredQuantity.HeightOfCut);
        if (!spots.IsPlain)
        {
            return Possible.Judged;
        }

        var sum =
            spots.BothStationsKnown && spots.Known.Count == spots.All.Count
                ? Possible.Met
                : Possible.NeverNotMet;
        foreach (var spot in spots.Known)
        {
            sum = sum.And(Amount.Of(spot).Within(least, null, decision));
        }

        return spots.All.Count == 0 ? Possible.Unproven
            : spots.IsContested ? Possible.NeverMet
            : sum;
    }

    /// <summary>A wave that was measured is there; without speeds and roller sizes nobody can say from what.</summary>
    public static Possible Wave(Facts facts, UnitWork unit)
    {
        if (facts.Record.Machine.Tested?.WavePitch is null)
        {
            return Possible.NotApplicable;
        }

        var sheet = facts.Book.Sheet(unit.Sheet)!;
        bool speedsKnown = Speeds(facts, unit) is { Forward: not null, Turns: not null };
        return speedsKnown || sheet.FrontRollerDiameter is not null || sheet.RearRollerDiameter is not null
            ? Possible.NotMet
            : Possible.Unproven;
    }

    private static Possible OnTurf(decimal height, decimal digit, decimal least, RuleDecision decision)
    {
        if (decision != RuleDecision.Guarded && decision != RuleDecision.Simple)
        {
            return Possible.Judged;
        }

        // A rectangle as wide as the last digit: u = digit / sqrt 12, twice that either way.
        decimal guard = decision == RuleDecision.Simple ? 0 : digit / 1.7320508m;
        if (Math.Abs(Math.Abs(height - least) - guard) < 0.0000005m)
        {
            return Possible.Judged;
        }

        bool canProve = height > 0.120m * 25.4m;
        return height < least - guard ? Possible.NotMet
            : height >= least + guard && canProve ? Possible.Met
            : Possible.Unproven;
    }

    private static (decimal? Forward, decimal? Turns)? Speeds(Facts facts, UnitWork unit)
    {
        var fitting = facts
            .Orders.SelectMany(o => o.Mowing)
            .Where(m => m.Area == facts.Record.Machine.Area)
            .ToList();
        var order =
            fitting.FirstOrDefault(m => m.Sheet == unit.Sheet)
            ?? fitting.FirstOrDefault(m => m.Sheet is null);
        var tested = facts.Record.Machine.Tested;
        var ground = tested?.GroundSpeed ?? order?.GroundSpeed;
        var reel = tested?.ReelSpeed ?? order?.ReelSpeed;
        return ground is null && reel is null
            ? null
            : (ground?.MetresPerHour * 1000 / 60, reel?.RevolutionsPerMinute);
    }
}

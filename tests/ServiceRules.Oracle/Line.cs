namespace ServiceRules.Oracle;

/// <summary>The straight line through two known places of a unit.</summary>
internal sealed class Line
{
    private readonly Spot first;
    private readonly Spot second;
    private readonly decimal x1;
    private readonly decimal x2;

    private Line(Spot first, Spot second)
    {
        (this.first, this.second) = first.At < second.At ? (first, second) : (second, first);
        x1 = this.first.At!.Value;
        x2 = this.second.At!.Value;
    }

    /// <summary>None unless exactly two places are known.</summary>
    public static Line? Through(Spots spots) =>
        spots.Known is [{ At: not null } a, { At: not null } b] && a.System == b.System && a.At != b.At
            ? new(a, b)
            : null;

    public IReadOnlyList<(decimal Weight, Spot Spot)> At(decimal x, decimal sign = 1)
    {
        decimal right = (x - x1) / (x2 - x1);
        return [(sign * (1 - right), first), (sign * right, second)];
    }

    /// <summary>Right end minus left end.</summary>
    public Amount Tilt(decimal width)
    {
        decimal right = width / (x2 - x1);
        return Amount.Sum([(-right, first), (right, second)]);
    }
}

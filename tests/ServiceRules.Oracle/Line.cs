namespace ServiceRules.Oracle;

/// <summary>
/// The straight line of least squares through the known places of a unit, and for a tilt with three places or more the
/// parabola: the normal equations, written out.
/// </summary>
internal sealed class Line
{
    private readonly IReadOnlyList<Spot> spots;
    private readonly decimal[] at;

    private Line(IReadOnlyList<Spot> spots)
    {
        this.spots = spots;
        at = [.. spots.Select(s => s.At!.Value)];
    }

    /// <summary>None with fewer than two places, or with one that is no place along the width.</summary>
    public static Line? Through(Spots spots)
    {
        var known = spots.Known;
        bool usable =
            known.Count > 1
            && known.All(s => s.At is not null && s.System == known[0].System)
            && known.Select(s => s.At).Distinct().Count() == known.Count;
        return usable ? new(known) : null;
    }

    public bool HasIntervals => spots.Any(s => s.IsInterval);

    public int Count => spots.Count;

    /// <summary>No further beyond the outermost places than those are from one another.</summary>
    public bool Tells(decimal x) => x >= (2 * at.Min()) - at.Max() && x <= (2 * at.Max()) - at.Min();

    /// <summary>Read within 5 mm of there.</summary>
    public bool IsRead(decimal x) => at.Any(a => Math.Abs(a - x) <= 5);

    /// <summary>What was read nearest to there.</summary>
    public Spot Nearest(decimal x) => spots.OrderBy(s => Math.Abs(s.At!.Value - x)).First();

    /// <summary>The readings as they are.</summary>
    public IReadOnlyList<Spot> AsRead => spots;

    /// <summary>The readings, each with as much more doubt as they depart from the parabola.</summary>
    public IReadOnlyList<Spot> DoubtedByParabola(decimal width) =>
        [.. spots.Select(Doubt(3, where => ParabolaWeights(where, width)))];

    /// <summary>The parabola at a place.</summary>
    public IReadOnlyList<(decimal Weight, Spot Spot)> Bent(decimal x, decimal width)
    {
        var doubted = DoubtedByParabola(width);
        decimal[] weights = ParabolaWeights(x, width);
        return [.. doubted.Select((s, i) => (weights[i], s))];
    }

    /// <summary>The readings themselves, each with as much more doubt as they depart from the line.</summary>
    public IReadOnlyList<Spot> Doubted => [.. spots.Select(Doubt(2, where => Weights(where)))];

    public IReadOnlyList<(decimal Weight, Spot Spot)> At(decimal x, decimal sign = 1)
    {
        var doubt = Doubt(2, where => Weights(where));
        decimal[] weights = Weights(x);
        return [.. spots.Select((s, i) => (sign * weights[i], doubt(s)))];
    }

    /// <summary>Right end minus left end: by the line, with three places or more by the parabola where it is steady.</summary>
    public Amount Tilt(decimal width)
    {
        decimal[] right = Weights(width);
        decimal[] left = Weights(0);
        decimal[] byLine = [.. right.Zip(left, (r, l) => r - l)];
        if (spots.Count < 3)
        {
            return Amount.Sum([.. spots.Select((s, i) => (byLine[i], s))]);
        }

        decimal[] byParabola = ParabolaTilt(width);
        bool steady = byParabola.Sum(w => w * w) <= 4 * byLine.Sum(w => w * w);
        decimal[] weights = steady ? byParabola : byLine;
        var doubt = steady
            ? Doubt(3, where => ParabolaWeights(where, width))
            : Doubt(2, where => Weights(where));
        return Amount.Sum([.. spots.Select((s, i) => (weights[i], doubt(s)))]);
    }

    /// <summary>By the parabola: its middle less the mean of its ends.</summary>
    public Amount Bow(decimal width)
    {
        decimal[] middle = ParabolaWeights(width / 2, width);
        decimal[] left = ParabolaWeights(0, width);
        decimal[] right = ParabolaWeights(width, width);
        var doubt = Doubt(3, where => ParabolaWeights(where, width));
        return Amount.Sum([.. spots.Select((s, i) => (middle[i] - ((left[i] + right[i]) / 2), doubt(s)))]);
    }

    private decimal[] Weights(decimal x)
    {
        decimal mean = at.Average();
        decimal square = at.Sum(a => (a - mean) * (a - mean));
        return [.. at.Select(a => (1m / at.Length) + ((x - mean) * (a - mean) / square))];
    }

    private decimal[] ParabolaTilt(decimal width) =>
        [.. ParabolaWeights(width, width).Zip(ParabolaWeights(0, width), (r, l) => r - l)];

    /// <summary>Value at x of the parabola a + b t + c t², as weights of the readings: Cramer's rule three times.</summary>
    private decimal[] ParabolaWeights(decimal x, decimal width)
    {
        decimal[] t = [.. at.Select(a => (a / width) - 0.5m)];
        decimal to = (x / width) - 0.5m;
        decimal n = t.Length;
        decimal s1 = t.Sum();
        decimal s2 = t.Sum(v => v * v);
        decimal s3 = t.Sum(v => v * v * v);
        decimal s4 = t.Sum(v => v * v * v * v);
        decimal whole = Determinant([n, s1, s2, s1, s2, s3, s2, s3, s4]);
        return
        [
            .. t.Select(v =>
                (
                    Determinant([1, s1, s2, v, s2, s3, v * v, s3, s4])
                    + (to * Determinant([n, 1, s2, s1, v, s3, s2, v * v, s4]))
                    + (to * to * Determinant([n, s1, 1, s1, s2, v, s2, s3, v * v]))
                ) / whole
            ),
        ];
    }

    private static decimal Determinant(decimal[] m) =>
        (m[0] * ((m[4] * m[8]) - (m[5] * m[7])))
        - (m[1] * ((m[3] * m[8]) - (m[5] * m[6])))
        + (m[2] * ((m[3] * m[7]) - (m[4] * m[6])));

    /// <summary>A reading is no better known by itself than the readings scatter about the form.</summary>
    private Func<Spot, Spot> Doubt(int parameters, Func<decimal, decimal[]> form)
    {
        if (HasIntervals || spots.Count <= parameters)
        {
            return spot => spot;
        }

        double sum = 0;
        foreach (var spot in spots)
        {
            decimal[] weights = form(spot.At!.Value);
            decimal there = spots.Select((s, i) => weights[i] * s.Value).Sum();
            sum += Math.Pow((double)(spot.Value - there), 2);
        }

        // What all readings share moves them together: it explains no scatter and is not enlarged.
        double scatter = sum / (spots.Count - parameters);
        return spot =>
            spot with
            {
                Own = (Math.Max(scatter, spot.Own.Least), Math.Max(scatter, spot.Own.Greatest)),
            };
    }
}

namespace ServiceRules.Oracle;

/// <summary>
/// From standard to expanded uncertainty, from the words of the page on uncertainty: Student's t by its finite sums, k along
/// 1/ν between whole degrees, and the most that any part of the errors comes to.
/// </summary>
internal static class Coverage
{
    // Two deviations of the normal distribution.
    private const double Level = 0.954499736103642;

    private const int Tabulated = 100;

    private static readonly double[] Table =
    [
        .. Enumerable.Range(0, Tabulated + 1).Select(degrees => degrees == 0 ? 0 : Quantile(degrees)),
    ];

    /// <summary>The most that k times the root of the sum of squares comes to, each found error there or not, the known too.</summary>
    /// <param name="known">Square of all that is taken as known.</param>
    /// <param name="found">Squares of what was found, each on its degrees of freedom.</param>
    public static double Expanded(double known, IReadOnlyList<(double Square, double Degrees)> found)
    {
        (double Square, double Degrees)[] all = [(known, double.PositiveInfinity), .. found];
        double most = 0;
        for (int which = 1; which < 1 << all.Length; which++)
        {
            var there = all.Where((_, i) => (which >> i) % 2 == 1).ToList();
            double square = there.Sum(error => error.Square);
            double doubt = there.Sum(error => error.Square * error.Square / error.Degrees);
            most = Math.Max(most, Factor(doubt > 0 ? doubt / square / square : 0) * Math.Sqrt(square));
        }

        return most;
    }

    /// <summary>k by one over the degrees of freedom.</summary>
    private static double Factor(double oneOver)
    {
        if (oneOver <= 1e-6)
        {
            return 2;
        }

        double degrees = 1 / Math.Min(1, oneOver);
        int below = (int)Math.Floor(degrees);
        if (below >= Tabulated)
        {
            return 2 + ((Table[Tabulated] - 2) * (oneOver - 1e-6) / ((1.0 / Tabulated) - 1e-6));
        }

        double from = 1.0 / below;
        double to = 1.0 / (below + 1);
        return Table[below] + ((Table[below + 1] - Table[below]) * (from - (1 / degrees)) / (from - to));
    }

    /// <summary>Where as much of the distribution lies within, by halving.</summary>
    private static double Quantile(int degrees)
    {
        double low = 0;
        double high = 100;
        for (int i = 0; i < 200; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Within(middle, degrees) < Level ? (middle, high) : (low, middle);
        }

        return high;
    }

    /// <summary>How much of Student's t lies within: Abramowitz and Stegun, 26.7.3 and 26.7.4.</summary>
    private static double Within(double t, int degrees)
    {
        double angle = Math.Atan(t / Math.Sqrt(degrees));
        double square = Math.Cos(angle) * Math.Cos(angle);
        bool isOdd = degrees % 2 == 1;
        double term = isOdd ? Math.Cos(angle) : 1;
        double sum = 0;
        for (int i = isOdd ? 1 : 0; i < degrees - 1; i += 2)
        {
            sum += term;
            term *= square * (i + 1) / (i + 2);
        }

        return isOdd
            ? (angle + (Math.Sin(angle) * (degrees == 1 ? 0 : sum))) * 2 / Math.PI
            : Math.Sin(angle) * sum;
    }
}

using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// Which of the ordered pairwise slopes bound the true one (Sen, Journal of the American Statistical Association 63
/// (1968) 1379): the slopes ranked r and N + 1 - r cover it with 1 - 2·P(K &lt; r), K the number of discordant pairs
/// among n readings in random order. Exact by counting orders up to 60 readings; beyond, K as normal with mean N/2 and
/// variance n(n - 1)(2n + 5)/72.
/// </summary>
/// <param name="Rank">r, counted from 1 at the least slope.</param>
/// <param name="Coverage">What the two slopes really cover; less than asked where few readings cannot give it.</param>
internal sealed record RankInterval(int Rank, Probability Coverage)
{
    private const int MostCounted = 60;

    /// <summary>The narrowest interval that covers at least so much, or else the widest there is.</summary>
    /// <param name="readings">n, 3 or more.</param>
    /// <param name="level">What to cover.</param>
    public static RankInterval Covering(int readings, Probability level)
    {
        var discordant = readings <= MostCounted ? Counted(readings) : Normal(readings);
        var widest = new RankInterval(1, Between(discordant(0)));
        for (
            var rank = 2;
            Between(discordant(rank - 1)) is var covered && covered >= level && covered > Probability.Zero;
            rank++
        )
        {
            widest = new(rank, covered);
        }

        return widest;
    }

    private static Probability Between(double below) => Probability.FromComputed(1 - (2 * below));

    /// <summary>P(K ≤ k): each further reading stands before 0, 1, ... of those there, all alike likely.</summary>
    private static Func<int, double> Counted(int readings)
    {
        double[] shares = [1];
        for (var n = 2; n <= readings; n++)
        {
            var next = new double[shares.Length + n - 1];
            for (var k = 0; k < next.Length; k++)
            {
                for (var before = Math.Max(0, k - shares.Length + 1); before < n && before <= k; before++)
                {
                    next[k] += shares[k - before] / n;
                }
            }

            shares = next;
        }

        return k => shares.Take(k + 1).Sum();
    }

    private static Func<int, double> Normal(int readings)
    {
        double n = readings;
        var mean = n * (n - 1) / 4;
        var deviation = Math.Sqrt(n * (n - 1) * ((2 * n) + 5) / 72);
        return k => MathNet.Numerics.Distributions.Normal.CDF(mean, deviation, k + 0.5);
    }
}

using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// Which of the ordered pairwise slopes bound the true one (P. K. Sen, Journal of the American Statistical Association 63
/// (1968) 1379): those ranked r and N + 1 - r cover it with 1 - 2·P(K &lt; r), K the number of discordant pairs among n
/// readings in random order, counted exactly.
/// </summary>
/// <param name="Rank">r, counted from 1 at the least slope.</param>
/// <param name="Coverage">What the two slopes really cover; less than asked where few readings cannot give it.</param>
internal sealed record RankInterval(int Rank, Probability Coverage)
{
    /// <summary>The narrowest interval that covers at least so much, or else the widest there is.</summary>
    /// <param name="readings">n, 3 or more.</param>
    /// <param name="level">What to cover, more than nothing.</param>
    public static RankInterval Covering(int readings, Probability level)
    {
        var shares = Discordant(readings);
        var below = shares[0];
        var widest = new RankInterval(1, Covered(below));
        for (var rank = 2; ; rank++)
        {
            below += shares[rank - 1];
            if (Covered(below) < level)
            {
                return widest;
            }

            widest = new(rank, Covered(below));
        }
    }

    private static Probability Covered(double below) => Probability.FromComputed(1 - (2 * below));

    /// <summary>P(K = k): each further reading stands before 0, 1, ... of those there, all alike likely.</summary>
    private static double[] Discordant(int readings)
    {
        double[] shares = [1];
        for (var n = 2; n <= readings; n++)
        {
            var next = new double[shares.Length + n - 1];
            var window = 0.0;
            for (var k = 0; k < next.Length; k++)
            {
                window += k < shares.Length ? shares[k] : 0;
                window -= k >= n ? shares[k - n] : 0;
                next[k] = window / n;
            }

            shares = next;
        }

        return shares;
    }
}

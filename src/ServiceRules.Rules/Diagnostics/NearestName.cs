namespace ServiceRules.Rules.Diagnostics;

/// <summary>
/// Finds the known name that was probably meant: the fewest single-character slips (a missing, extra, wrong or
/// swapped character; optimal string alignment), at most a third of the longer name's length.
/// </summary>
public static class NearestName
{
    private const int LongestCompared = 64;

    /// <summary>The name that was probably meant, or null: none is near.</summary>
    /// <param name="found">The name as it was written.</param>
    /// <param name="known">The names that there are.</param>
    public static string? Of(string found, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(found);
        ArgumentNullException.ThrowIfNull(known);
        if (found.Length > LongestCompared)
        {
            return null;
        }

        string? nearest = null;
        int fewest = int.MaxValue;
        foreach (string name in known)
        {
            int allowed = Math.Max(1, Math.Max(name.Length, found.Length) / 3);
            int slips = Slips(found.ToLowerInvariant(), name.ToLowerInvariant());
            if (slips <= allowed && slips < fewest)
            {
                (nearest, fewest) = (name, slips);
            }
        }

        return nearest;
    }

    private static int Slips(string a, string b)
    {
        // Three rows of the table suffice: a swap looks back two rows, everything else one.
        int[] older = new int[b.Length + 1];
        int[] old = [.. Enumerable.Range(0, b.Length + 1)];
        int[] row = new int[b.Length + 1];
        for (int i = 1; i <= a.Length; i++)
        {
            row[0] = i;
            for (int j = 1; j <= b.Length; j++)
            {
                int replaced = old[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                int best = Math.Min(replaced, Math.Min(old[j], row[j - 1]) + 1);
                bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
                row[j] = swapped ? Math.Min(best, older[j - 2] + 1) : best;
            }

            (older, old, row) = (old, row, older);
        }

        return old[b.Length];
    }
}

namespace ServiceRules.Crash.Tests;

/// <summary>When the service is killed.</summary>
internal enum Moment
{
    /// <summary>Somewhere in its work.</summary>
    AtRandom,

    /// <summary>As the database takes in the next filing: nothing of it is acknowledged yet.</summary>
    AsTheDatabaseGrows,

    /// <summary>As the checkpoint of a filing is kept outside the database.</summary>
    AsACheckpointIsKept,

    /// <summary>While it opens its ledger and listens.</summary>
    AsItStarts,
}

/// <summary>Waits for such a moment.</summary>
internal static class Moments
{
    private static readonly TimeSpan Most = TimeSpan.FromSeconds(10);

    public static Task ComesAsync(this Moment moment, DataFolder folder, Random random) =>
        moment switch
        {
            Moment.AtRandom => Task.Delay(random.Next(0, 200)),
            Moment.AsItStarts => Task.Delay(random.Next(0, 1200)),
            Moment.AsTheDatabaseGrows => GrowsAsync(folder.Database + "-wal", random),
            Moment.AsACheckpointIsKept => GrowsAsync(
                Path.Combine(folder.Checkpoints, "checkpoints.txt"),
                random
            ),
            _ => throw new ArgumentOutOfRangeException(nameof(moment)),
        };

    // The eye on the file never rests: a filing takes a few milliseconds.
    private static async Task GrowsAsync(string file, Random random)
    {
        await Task.Delay(random.Next(0, 200));
        await Task.Run(() =>
        {
            var before = Length(file);
            _ = SpinWait.SpinUntil(() => Length(file) != before, Most);
        });
    }

    private static long Length(string file) => File.Exists(file) ? new FileInfo(file).Length : 0;
}

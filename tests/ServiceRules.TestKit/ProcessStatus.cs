using System.Globalization;

namespace ServiceRules.TestKit;

/// <summary>What Linux tells of a process in <c>/proc</c> (proc(5), <c>/proc/pid/stat</c>).</summary>
internal sealed record ProcessStatus
{
    // proc(5): these times are in ticks of sysconf(_SC_CLK_TCK), which is 100 a second wherever .NET runs on Linux.
    private const long TicksPerSecond = 100;

    // Places after the name, which stands in parentheses and may hold blanks.
    private const int ParentPlace = 1;
    private const int OwnPlace = 11;
    private const int OfEndedPlace = 13;

    public required string Id { get; init; }

    public required string Parent { get; init; }

    /// <summary>Processor time of its own.</summary>
    public required TimeSpan Own { get; init; }

    /// <summary>Processor time of those it started and that have ended.</summary>
    public required TimeSpan OfEnded { get; init; }

    public static IEnumerable<ProcessStatus> All() =>
        Directory.EnumerateDirectories("/proc").Select(Read).OfType<ProcessStatus>();

    private static ProcessStatus? Read(string folder)
    {
        try
        {
            var told = File.ReadAllText(Path.Combine(folder, "stat"));
            var parts = told[(told.LastIndexOf(')') + 2)..].Split(' ');
            return new ProcessStatus
            {
                Id = Path.GetFileName(folder),
                Parent = parts[ParentPlace],
                Own = Time(parts, OwnPlace),
                OfEnded = Time(parts, OfEndedPlace),
            };
        }
        catch (Exception gone) when (gone is IOException or UnauthorizedAccessException)
        {
            // It has no such file, or ended meanwhile.
            return null;
        }
    }

    private static TimeSpan Time(string[] parts, int place) =>
        TimeSpan.FromSeconds((double)(Ticks(parts[place]) + Ticks(parts[place + 1])) / TicksPerSecond);

    private static long Ticks(string text) => long.Parse(text, CultureInfo.InvariantCulture);
}

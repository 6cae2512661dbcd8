namespace ServiceRules.Cli.Setup;

/// <summary>Everything that is wrong with what was given, told at once and not one after another.</summary>
internal sealed class Gathered
{
    private readonly List<string> lines = [];

    /// <summary>What is read, or nothing where it cannot be; then <see cref="End"/> tells why.</summary>
    public T? Of<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (InputException wrong)
        {
            lines.AddRange(wrong.Lines);
            return default;
        }
    }

    /// <summary>All of what is read that can be.</summary>
    public List<T> Each<TGiven, T>(IEnumerable<TGiven>? given, Func<TGiven, T> read)
        where T : notnull
    {
        List<T> all = [];
        foreach (var one in given ?? [])
        {
            if (Of(() => new Read<T>(read(one))) is { } sound)
            {
                all.Add(sound.Value);
            }
        }

        return all;
    }

    public void Add(string? problem)
    {
        if (problem is not null)
        {
            lines.Add(problem);
        }
    }

    public void Add(IEnumerable<string> problems) => lines.AddRange(problems);

    /// <exception cref="InputException">Something was wrong.</exception>
    public void End(string folder)
    {
        if (lines.Count > 0)
        {
            throw new InputException([.. lines, $"nothing was written to `{folder}`"]);
        }
    }

    private sealed record Read<T>(T Value);
}

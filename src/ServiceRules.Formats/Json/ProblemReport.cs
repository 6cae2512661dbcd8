using System.Collections.Immutable;
using System.Globalization;

namespace ServiceRules.Formats.Json;

/// <summary>The problems of one document in the order in which they stand in it, and how many more there are.</summary>
/// <param name="Told">At most <see cref="ReadLimits.ProblemsTold"/> problems.</param>
/// <param name="Untold">How many further problems were found and not kept.</param>
public sealed record ProblemReport(ImmutableArray<Problem> Told, int Untold)
{
    public static ProblemReport None { get; } = new([], 0);

    public bool IsEmpty => Told.IsEmpty;

    public static ProblemReport Of(Problem problem) => new([problem], 0);

    /// <summary>One line per problem, and `and N more` when some are not told.</summary>
    public IEnumerable<string> Lines()
    {
        foreach (Problem problem in Told)
        {
            yield return problem.ToString();
        }

        if (Untold > 0)
        {
            yield return string.Create(CultureInfo.InvariantCulture, $"and {Untold} more");
        }
    }

    public override string ToString() => string.Join('\n', Lines());
}

using System.Collections.Immutable;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// One error by its origin, kept beside what is reckoned with so that a budget can be told again: what several readings and
/// weights made of it, in millimetres.
/// </summary>
/// <param name="Source">Where it comes from.</param>
/// <param name="Size">Its standard uncertainty as it enters the result, in millimetres.</param>
/// <param name="Known">How well that is known.</param>
internal readonly record struct ErrorLine(UncertaintySource Source, double Size, DegreesOfFreedom Known)
{
    /// <summary>The same of another size.</summary>
    public ErrorLine Times(double factor) => this with { Size = Size * factor };

    /// <summary>Independent errors: those of one source that are taken as known in quadrature, the others each by itself.</summary>
    public static ImmutableArray<ErrorLine> Together(IEnumerable<ErrorLine> lines) =>
        Merged(lines, line => line.Known.IsInfinite ? line.Source : null);

    /// <summary>Errors that rest on one estimate for each source, with the least that is stated of it.</summary>
    public static ImmutableArray<ErrorLine> OfOneOrigin(IEnumerable<ErrorLine> lines) =>
        Merged(lines, line => (line.Source, line.Known.IsInfinite));

    private static ImmutableArray<ErrorLine> Merged(
        IEnumerable<ErrorLine> lines,
        Func<ErrorLine, object?> alike
    )
    {
        var indexed = lines.Where(line => line.Size > 0).Select((line, at) => (line, at));
        return
        [
            .. indexed
                .GroupBy(each => alike(each.line) ?? each.at, each => each.line)
                .Select(group => Quadrature([.. group]))
                .OrderBy(line => line.Source)
                .ThenBy(line => line.Size),
        ];
    }

    private static ErrorLine Quadrature(List<ErrorLine> lines) =>
        new(
            lines[0].Source,
            Math.Sqrt(lines.Select(line => line.Size * line.Size).Order().Sum()),
            lines.Select(line => line.Known).Aggregate(DegreesOfFreedom.Least)
        );
}

using System.Collections.Immutable;
using ServiceRules.Formats.Json;

namespace ServiceRules.Application.Importing;

/// <summary>Which row and column each part of a record came from.</summary>
internal sealed class RecordPlaces(TableColumns columns, int firstRow)
{
    private readonly Dictionary<string, (int Row, string? Column)> places = new(StringComparer.Ordinal)
    {
        [""] = (firstRow, null),
    };

    public int RowOf(string pointer) => places[pointer].Row;

    /// <summary>Where a part was taken from first.</summary>
    public void Add(string pointer, int row, string? column) => _ = places.TryAdd(pointer, (row, column));

    public ImmutableArray<RowProblem> Of(ProblemReport problems) =>
        [
            .. problems.Told.Select(Of),
            .. problems.Untold > 0
                ? new[] { new RowProblem(firstRow, null, $"and {problems.Untold} more", "", "") }
                : [],
        ];

    private RowProblem Of(Problem problem)
    {
        var pointer = problem.Pointer;
        while (!places.ContainsKey(pointer))
        {
            pointer = pointer[..pointer.LastIndexOf('/')];
        }

        var (row, column) = places[pointer];
        return columns.Problem(row, column, new(problem.What, problem.Found, problem.Accepted)) with
        {
            Pointer = problem.Pointer,
        };
    }
}

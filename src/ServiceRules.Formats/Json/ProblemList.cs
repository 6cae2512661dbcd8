namespace ServiceRules.Formats.Json;

/// <summary>Gathers problems up to the number that is told and counts the rest.</summary>
internal sealed class ProblemList
{
    private readonly List<Problem> told = [];
    private int untold;

    public bool IsEmpty => told.Count == 0;

    /// <summary>Asked before costly wording; a problem beyond the told ones is only counted.</summary>
    public bool HasRoom => told.Count < ReadLimits.ProblemsTold;

    public void Add(Problem problem)
    {
        if (HasRoom)
        {
            told.Add(problem);
        }
        else
        {
            untold++;
        }
    }

    public void CountOne() => untold++;

    public ProblemReport ToReport() =>
        new([.. told.OrderBy(problem => problem.Line).ThenBy(problem => problem.Column)], untold);
}

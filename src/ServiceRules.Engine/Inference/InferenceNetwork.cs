using System.Collections.Immutable;
using System.Globalization;
using NRules;

namespace ServiceRules.Engine.Inference;

/// <summary>
/// Productions compiled once and run many times. Safe to share between threads: each run has a session of its
/// own, and a run that fails leaves nothing behind.
/// </summary>
internal sealed class InferenceNetwork
{
    private readonly ISessionFactory _sessions;
    private readonly int _mostFirings;

    private InferenceNetwork(ISessionFactory sessions, int mostFirings)
    {
        _sessions = sessions;
        _mostFirings = mostFirings;
    }

    /// <summary>
    /// Compiles productions and runs an empty session once, so that what the network fills in lazily is filled in
    /// before several threads share it.
    /// </summary>
    /// <param name="productions">At least one; names are unique.</param>
    /// <param name="mostFirings">How many firings a run may need before it is held to be running away.</param>
    /// <exception cref="EngineFaultException">Names repeat, or the network refuses a production.</exception>
    public static InferenceNetwork Compile(IEnumerable<Production> productions, int mostFirings)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(mostFirings, 1);
        var all = productions.ToImmutableArray();
        if (all.GroupBy(p => p.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new EngineFaultException($"production `{twice.Key}` is defined more than once");
        }

        try
        {
            // Never with a cancellation token: a cancelled compilation returns a working network with rules missing.
            var network = new InferenceNetwork(
                new RuleCompiler().Compile(all.Select(p => p.Definition)),
                mostFirings
            );
            network.Run([]);
            return network;
        }
        catch (RuleCompilationException failure)
        {
            throw new EngineFaultException($"production `{failure.RuleName}` does not compile", failure);
        }
    }

    /// <summary>
    /// Everything known once nothing more follows, the given facts included, in no particular order: the caller
    /// sorts by what the facts mean.
    /// </summary>
    /// <param name="facts">The facts to start from; no two are equal.</param>
    /// <exception cref="EngineFaultException">
    /// Two facts are equal, a condition or consequence threw, or the run did not come to rest.
    /// </exception>
    public IReadOnlyList<Fact> Run(IEnumerable<Fact> facts)
    {
        var start = facts.ToList();
        var seen = new HashSet<Fact>(start.Count);
        if (start.Find(f => !seen.Add(f)) is { } twice)
        {
            throw new EngineFaultException(
                string.Create(CultureInfo.InvariantCulture, $"the same fact is given twice: `{twice}`")
            );
        }

        var session = _sessions.CreateSession();
        try
        {
            session.InsertAll(start);
            session.Fire(_mostFirings);
        }
        catch (RuleExecutionException failure)
        {
            throw new EngineFaultException(
                $"inference failed: {failure.InnerException?.Message ?? failure.Message}",
                failure
            );
        }

        if (!session.Agenda.IsEmpty)
        {
            throw new EngineFaultException(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"inference did not come to rest within {_mostFirings} firings"
                )
            );
        }

        // Enumerated, never composed: operators on the queryable would compile an expression on every run.
        return [.. session.Query<Fact>().AsEnumerable()];
    }
}

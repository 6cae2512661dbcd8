using System.Collections.Concurrent;

namespace ServiceRules.Crash.Tests;

/// <summary>One version of a record that the service said it keeps.</summary>
internal sealed record KeptVersion(string Id, long Entry, string Content);

/// <summary>One report that the service handed out.</summary>
internal sealed record IssuedReport(string Id, byte[] Content);

/// <summary>What the service has acknowledged, and what it answered that it should not have.</summary>
internal sealed class Promises
{
    /// <summary>Whether something stood already when it was sent is no matter: it is kept.</summary>
    public ConcurrentBag<KeptVersion> Versions { get; } = [];

    public ConcurrentBag<IssuedReport> Reports { get; } = [];

    /// <summary>Requests to which no answer came: they may stand or not, and are sent again.</summary>
    public ConcurrentQueue<int> Unanswered { get; } = [];

    /// <summary>Answers that say in order that nothing was done now, by their status.</summary>
    public ConcurrentBag<int> PutOff { get; } = [];

    /// <summary>Answers that nobody should get.</summary>
    public ConcurrentBag<string> Faults { get; } = [];
}

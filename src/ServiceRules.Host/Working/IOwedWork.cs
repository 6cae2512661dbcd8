using ServiceRules.Application.Working;

namespace ServiceRules.Host.Working;

/// <summary>One kind of work, and what of it is owed by what the database keeps: the queue may be lost.</summary>
internal interface IOwedWork
{
    IWork Work { get; }

    /// <summary>
    /// What is to be handed to the queue, each after the one before was. What is asked for twice is one work.
    /// </summary>
    /// <param name="isAll">All of it; else what came since.</param>
    IEnumerable<string> Owed(bool isAll);
}

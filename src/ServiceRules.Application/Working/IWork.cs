namespace ServiceRules.Application.Working;

/// <summary>
/// One kind of work that goes on behind answers. It may be run twice for the same: whatever it ends in stands once.
/// </summary>
public interface IWork
{
    /// <summary>What the kind is called; it is kept with what is to be done, and stays.</summary>
    string Kind { get; }

    /// <summary>With what else it shares its few places, so that it never holds all of them; null: with nothing.</summary>
    string? SharesWith(string what) => null;

    /// <returns>After how long it is to be done again; null: it is done.</returns>
    Task<TimeSpan?> DoAsync(string what, CancellationToken stop);
}

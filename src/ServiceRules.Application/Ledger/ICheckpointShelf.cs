namespace ServiceRules.Application.Ledger;

/// <summary>Checkpoints kept outside the database, so that a database put back or cut short is found out.</summary>
public interface ICheckpointShelf
{
    /// <summary>Where they are kept, for people.</summary>
    string Place { get; }

    /// <summary>Everything on the shelf, whoever put it there.</summary>
    IEnumerable<ShelvedCheckpoint> All();

    /// <summary>Adds one, and returns once it is durable.</summary>
    void Add(string note);
}

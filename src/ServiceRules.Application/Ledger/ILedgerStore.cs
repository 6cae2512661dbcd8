using ServiceRules.Application.Rows;

namespace ServiceRules.Application.Ledger;

/// <summary>Where a log and its contents are kept. Only one transaction at a time is open on it, on any machine.</summary>
public interface ILedgerStore : ILedgerReading
{
    /// <summary>What is asked of records, units and findings. Safe to share between threads.</summary>
    IRowReading Rows { get; }

    /// <summary>
    /// Runs one transaction with the head locked, and returns once it is durable. When <paramref name="work"/> throws,
    /// nothing of it remains.
    /// </summary>
    T Write<T>(Func<ILedgerWriting, T> work);

    /// <summary>Runs several questions on the log as it is at one moment, whoever files meanwhile.</summary>
    T Read<T>(Func<ILedgerReading, T> work);

    /// <summary>Runs several questions on the log and its rows as they are at one moment, whoever files meanwhile.</summary>
    T Read<T>(Func<ILedgerReading, IRowReading, T> work);

    /// <summary>What the store finds wrong with its own files; empty when nothing.</summary>
    IReadOnlyList<string> Check();

    /// <summary>What the store finds wrong with its tables of rows, and with how it looks them up; empty when nothing.</summary>
    IReadOnlyList<string> CheckRows();

    /// <summary>Makes anew what rows are looked up by: a row that differs from it could not be removed.</summary>
    void RenewRowIndexes();
}

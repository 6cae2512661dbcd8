using System.Collections.Immutable;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Exporting;

/// <summary>
/// Exports and their files, in parts, in the database of the log: any instance writes them and hands them out. Whoever writes one
/// has a turn; when somebody else begins, whatever is still written in the earlier turn is refused. Safe to share between threads.
/// </summary>
public interface IExportStore
{
    /// <summary>Keeps what was asked for.</summary>
    /// <param name="job">What.</param>
    /// <param name="most">How many one caller may have.</param>
    /// <returns>It, or the one of the same caller that asks for the same and is not finished; null: the caller has too many.</returns>
    ExportJob? Ask(ExportJob job, int most);

    ExportJob? Find(string id);

    /// <summary>Those of one caller, the newest first, also where their time is over.</summary>
    ImmutableArray<ExportJob> Of(string by);

    /// <summary>All that are kept, or those that are not finished.</summary>
    ImmutableArray<string> Kept(bool unfinishedOnly);

    /// <summary>Begins to write one that is not finished, from the start.</summary>
    bool Begin(string id, string turn);

    /// <param name="id">Which.</param>
    /// <param name="turn">The turn of whoever writes.</param>
    /// <param name="number">Which part, from 0.</param>
    /// <param name="part">The part.</param>
    /// <param name="rows">Rows that are written so far.</param>
    /// <returns>Whether the turn still holds.</returns>
    bool Append(string id, string turn, int number, ReadOnlyMemory<byte> part, long rows);

    /// <returns>Whether the turn still held.</returns>
    bool End(string id, string turn, long rows, ContentHash digest);

    /// <returns>Whether the turn still held.</returns>
    bool Fail(string id, string turn, string why);

    /// <summary>Null where there is no such part.</summary>
    byte[]? Part(string id, int number);

    void Remove(string id);
}

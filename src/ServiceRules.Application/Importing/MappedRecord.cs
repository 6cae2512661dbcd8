using System.Collections.Immutable;
using ServiceRules.Formats.Json;

namespace ServiceRules.Application.Importing;

/// <summary>One record as its rows say it.</summary>
public sealed record MappedRecord
{
    private readonly RecordPlaces places;

    internal MappedRecord(
        string key,
        int firstRow,
        ReadOnlyMemory<byte> body,
        ImmutableArray<RowProblem> problems,
        RecordPlaces places
    )
    {
        this.places = places;
        Key = key;
        FirstRow = firstRow;
        Body = body;
        Problems = problems;
    }

    /// <summary>What its rows agree in.</summary>
    public string Key { get; }

    /// <summary>Its first row.</summary>
    public int FirstRow { get; }

    /// <summary>Its identity; null where the rows say none.</summary>
    public string? Id { get; init; }

    /// <summary>The document; not whole where there are problems.</summary>
    public ReadOnlyMemory<byte> Body { get; }

    /// <summary>What is wrong with its cells.</summary>
    public ImmutableArray<RowProblem> Problems { get; init; }

    /// <summary>Where problems of the document stand in the table.</summary>
    public ImmutableArray<RowProblem> Of(ProblemReport problems) => places.Of(problems);
}

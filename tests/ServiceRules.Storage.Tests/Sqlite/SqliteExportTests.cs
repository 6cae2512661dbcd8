using ServiceRules.Storage.Tests.Exporting;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteExportTests() : ExportContract(() => new Drawer());

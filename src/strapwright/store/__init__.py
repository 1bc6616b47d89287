"""What the shop keeps: jobs and shop files with every version, drafts, searches, the log.

One SQLite file in one folder.  Times come from the caller; what is kept is the text as saved.
"""

from strapwright.store.backup import backup_store, restore_store, verify_file
from strapwright.store.exchange import (
    Imported,
    export_files,
    export_folder,
    export_one,
    export_zip,
    import_files,
    import_folder,
    import_one,
    import_zip,
)
from strapwright.store.log_lines import check_typed
from strapwright.store.store import Store, open_store
from strapwright.store.store_errors import Conflict, Missing, StoreError
from strapwright.store.store_values import (
    KINDS,
    Draft,
    Item,
    Kind,
    LogEntry,
    Search,
    State,
    Version,
    new_id,
)

__all__ = [
    "KINDS",
    "Conflict",
    "Draft",
    "Imported",
    "Item",
    "Kind",
    "LogEntry",
    "Missing",
    "Search",
    "State",
    "Store",
    "StoreError",
    "Version",
    "backup_store",
    "check_typed",
    "export_files",
    "export_folder",
    "export_one",
    "export_zip",
    "import_files",
    "import_folder",
    "import_one",
    "import_zip",
    "new_id",
    "open_store",
    "restore_store",
    "verify_file",
]

fn main() {
    let arg = std::env::args().nth(1).unwrap();
    let found = hostwood::read::folder::files(std::path::Path::new(&arg)).unwrap();
    match hostwood::book::bind(found) {
        Ok(book) => println!("ok {} woods {} evidence", book.woods.len(), book.evidence.len()),
        Err(faults) => println!("{}", hostwood::fault::draw::report(&faults, false)),
    }
}
